/*
 * Pins: OC1A (PB1) wave; ADC0 voltage, ADC1 current, ADC2 microphone; PD2 foot switch to ground;
 * PD4 pass, PD5 fail, PD6 busy lamp; PD7 buzzer; PD0, PD1 serial port.
 */
#include "board.h"

#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "tick.h"

#define MID_SCALE 512
#define EDGES_AT 21 /* modulo 32: usual starts are 61 to 77 cycles after the overflow */
/* 16 MHz / 64 = 250 kHz: 13 of its periods are 832 cycles of the 1024 of a tick (23.4). */
#define ADC_ON ((1 << ADEN) | (1 << ADPS2) | (1 << ADPS1))
#define RING 32 /* a power of two */

static uint8_t start_flags __attribute__((section(".noinit")));

static volatile uint8_t ring[RING];
#define RING_HEAD GPIOR0 /* where the next byte goes; both are 0 after a reset */
#define RING_TAIL GPIOR1

/* Before main(): the watchdog stays on after it has bitten (11.8.2) and would bite again. */
void board_calm_watchdog(void) __attribute__((naked, used, section(".init3")));
void board_calm_watchdog(void) {
  start_flags = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

enum board_cause board_start_cause(void) {
  if (start_flags & (1 << WDRF)) {
    return CAUSE_WATCHDOG;
  }
  /* Power-on sets the brown-out flag as well where the supply rises slowly (10.9.1). */
  if (start_flags & (1 << PORF)) {
    return CAUSE_POWER;
  }
  if (start_flags & (1 << BORF)) {
    return CAUSE_BROWN_OUT;
  }
  return CAUSE_RESET;
}

static void start_wave_output(void) {
  DDRB |= 1 << DDB1;
  OCR1A = MID_SCALE;
  /* Mode 7, fast PWM 10 bit, no prescaler: 16 MHz / 1024 = 15 625 Hz; OC1A clear on match (15.11.1). */
  TCCR1A = (1 << COM1A1) | (1 << WGM11) | (1 << WGM10);
  TCCR1B = (1 << WGM12) | (1 << CS10);
}

static void start_converter(void) {
  DIDR0 = (1 << ADC0D) | (1 << ADC1D) | (1 << ADC2D);
  ADMUX = 1 << REFS0; /* reference: the 5 V supply (23.9.1) */
  ADCSRA = ADC_ON;
  /* The converter's clock starts here, and the timer is set 6 cycles later, so that edges of that clock, of
   * either kind, stand at EDGES_AT and each 32 cycles from there on. */
  TCNT1 = EDGES_AT + 6;
}

static void start_serial(void) {
  UCSR0A = 1 << U2X0;
  UBRR0 = 3; /* 16 MHz / (8 x 4) = 500 000, exact, at double speed (19.11) */
  UCSR0B = (1 << RXCIE0) | (1 << RXEN0) | (1 << TXEN0);
}

void board_start(void) {
  PORTD |= 1 << PORTD2; /* pull-up for the foot switch */
  DDRD |= (1 << DDD4) | (1 << DDD5) | (1 << DDD6) | (1 << DDD7);
  start_wave_output();
  start_converter();
  start_serial();
  TIFR1 = 1 << TOV1;
  TIMSK1 = 1 << TOIE1;
  wdt_enable(WDTO_1S);
  sei();
}

void board_alive(void) { wdt_reset(); }

bool board_serial_ready(void) { return (UCSR0A & (1 << UDRE0)) != 0; }

void board_serial_put(char c) { UDR0 = (uint8_t)c; }

bool board_serial_coming(void) { return RING_TAIL != RING_HEAD; }

int16_t board_serial_get(void) {
  uint8_t tail = RING_TAIL;
  if (tail == RING_HEAD) {
    return -1;
  }
  uint8_t byte = ring[tail];
  RING_TAIL = (uint8_t)((tail + 1U) % RING);
  return byte;
}

void board_lamps_write(uint8_t lit) {
  uint8_t pins = (uint8_t)((lit & LAMP_PASS ? 1 << PORTD4 : 0) | (lit & LAMP_FAIL ? 1 << PORTD5 : 0) |
                           (lit & LAMP_BUSY ? 1 << PORTD6 : 0));
  const uint8_t mask = (1 << PORTD4) | (1 << PORTD5) | (1 << PORTD6);
  PORTD = (uint8_t)((PORTD & (uint8_t)~mask) | pins);
}

void board_buzzer_write(bool on) {
  if (on) {
    PORTD |= 1 << PORTD7;
  } else {
    PORTD &= (uint8_t)~(1 << PORTD7);
  }
}

bool board_foot_down(void) { return (PIND & (1 << PIND2)) == 0; }

uint8_t board_keep_read(uint8_t at) { return eeprom_read_byte((const uint8_t *)(uint16_t)at); }

void board_keep_write(uint8_t at, uint8_t value) {
  eeprom_update_byte((uint8_t *)(uint16_t)at, value);
}

/* A few instructions long each time, so the serial port may wait as well: it keeps two bytes (19.7). */
void board_hold(void) { cli(); }

void board_release(void) { sei(); }

/*
 * The tick. The conversion starts first, so always as soon after the overflow as the entry here allows; the
 * converter begins with the next edge of its own clock, and start_converter() has put the edges in the middle
 * between two usual starts. Only a byte that comes in just before, or a hold, can move a start to the next edge, 2
 * or 4 us later: how often is measured on the emulated board, and what it costs is in the firmware's README.
 */
ISR(TIMER1_OVF_vect) {
  uint16_t code = ADC;
  ADMUX = (uint8_t)((1 << REFS0) | tick_pending);
  ADCSRA = ADC_ON | (1 << ADSC);
  tick_take(code);
  /* Taken over at the next overflow (15.9.3). */
  OCR1A = (uint16_t)(MID_SCALE + tick_drive());
}

/*
 * One byte in: 320 cycles pass between two at 500 000 baud. Written out because a long line that comes beside a
 * record takes a quarter of the processor here, and because a start of a conversion may have to wait for it:
 * what the compiler makes of the same in C takes 30 cycles more. Head and tail are two registers that the part
 * keeps free for such use (8.5).
 */
ISR(USART_RX_vect, ISR_NAKED) {
  __asm__ volatile(
      "push r24\n\t"
      "in r24, __SREG__\n\t"
      "push r24\n\t"
      "push r25\n\t"
      "push r30\n\t"
      "push r31\n\t"
      "lds r24, %[status]\n\t"
      "lds r25, %[data]\n\t"
      "andi r24, %[faults]\n\t" /* a byte lost before this one, or this one damaged: */
      "breq 1f\n\t"
      "clr r25\n\t" /* a zero stands for it */
      "1: in r30, %[head]\n\t"
      "mov r24, r30\n\t"
      "inc r24\n\t"
      "andi r24, %[last]\n\t"
      "in r31, %[tail]\n\t"
      "cp r24, r31\n\t"
      "breq 3f\n\t"
      "out %[head], r24\n\t"
      "2: clr r31\n\t"
      "subi r30, lo8(-(%[ring]))\n\t"
      "sbci r31, hi8(-(%[ring]))\n\t"
      "st Z, r25\n\t"
      "pop r31\n\t"
      "pop r30\n\t"
      "pop r25\n\t"
      "pop r24\n\t"
      "out __SREG__, r24\n\t"
      "pop r24\n\t"
      "reti\n\t"
      "3: dec r30\n\t" /* no room: a zero stands for the last byte that had */
      "andi r30, %[last]\n\t"
      "clr r25\n\t"
      "rjmp 2b\n\t"
      :
      : [status] "n"(_SFR_MEM_ADDR(UCSR0A)), [data] "n"(_SFR_MEM_ADDR(UDR0)),
        [faults] "M"((1 << DOR0) | (1 << FE0)), [head] "I"(_SFR_IO_ADDR(GPIOR0)),
        [tail] "I"(_SFR_IO_ADDR(GPIOR1)), [last] "M"(RING - 1), [ring] "i"(ring));
}
