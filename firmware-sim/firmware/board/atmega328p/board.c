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
/* TCNT1 at which a conversion starts: later than any entry into the tick's interrupt. */
#define CONVERT_AT 128
/* 16 MHz / 64 = 250 kHz: 13 of its periods are 832 cycles of the 1024 of a tick (23.4). */
#define ADC_ON ((1 << ADEN) | (1 << ADPS2) | (1 << ADPS1))
#define RING 32 /* a power of two */

static uint8_t start_flags __attribute__((section(".noinit")));

static volatile uint8_t ring[RING];
static volatile uint8_t ring_head;
static volatile uint8_t ring_tail;

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
  TIMSK1 = 1 << TOIE1;
}

static void start_converter(void) {
  DIDR0 = (1 << ADC0D) | (1 << ADC1D) | (1 << ADC2D);
  ADMUX = 1 << REFS0; /* reference: the 5 V supply (23.9.1) */
  ADCSRA = ADC_ON;
}

static void start_serial(void) {
  UBRR0 = 3; /* 16 MHz / (8 x 4) = 500 000, exact, at double speed (19.11) */
  UCSR0A = 1 << U2X0;
  UCSR0B = (1 << RXCIE0) | (1 << RXEN0) | (1 << TXEN0);
}

void board_start(void) {
  PORTD |= 1 << PORTD2; /* pull-up for the foot switch */
  DDRD |= (1 << DDD4) | (1 << DDD5) | (1 << DDD6) | (1 << DDD7);
  start_converter();
  start_wave_output();
  start_serial();
  wdt_enable(WDTO_1S);
  sei();
}

void board_alive(void) { wdt_reset(); }

bool board_serial_ready(void) { return (UCSR0A & (1 << UDRE0)) != 0; }

void board_serial_put(char c) { UDR0 = (uint8_t)c; }

int16_t board_serial_get(void) {
  uint8_t tail = ring_tail;
  if (tail == ring_head) {
    return -1;
  }
  uint8_t byte = ring[tail];
  ring_tail = (uint8_t)((tail + 1U) % RING);
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
 * The tick. A conversion starts at CONVERT_AT whatever delayed the entry here (the other interrupt, a hold of
 * a few instructions): the wait takes that up. The converter begins with the next edge of its own clock, 64
 * cycles apart; start_converter() has put the edges in the middle between two possible starts, so it is always the same edge.
 * Its longest time is measured on the emulated board; see the firmware's README.
 */
ISR(TIMER1_OVF_vect) {
  uint16_t code = ADC;
  ADMUX = (uint8_t)((1 << REFS0) | tick_pending);
  while (TCNT1 < CONVERT_AT) {
  }
  ADCSRA = ADC_ON | (1 << ADSC);
  tick_take(code);
  /* Taken over at the next overflow (15.9.3). */
  OCR1A = (uint16_t)(MID_SCALE + tick_drive());
}

/* One byte in: 320 cycles pass between two at 500 000 baud. */
ISR(USART_RX_vect) {
  uint8_t flags = UCSR0A;
  uint8_t byte = UDR0;
  uint8_t head = ring_head;
  uint8_t next = (uint8_t)((head + 1U) % RING);
  if ((flags & ((1 << DOR0) | (1 << FE0))) != 0) {
    byte = 0;
  }
  if (next == ring_tail) {
    ring[(uint8_t)(head - 1U) % RING] = 0;
    return;
  }
  ring[head] = byte;
  ring_head = next;
}
