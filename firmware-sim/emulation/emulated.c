#include "emulated.h"

#include <simavr/avr_adc.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>
#include <simavr/sim_interrupts.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Data addresses and vectors of the ATmega328P (data sheet, sections 12.4 and 36). */
#define OCR1A_LOW 0x88
#define OCR1A_HIGH 0x89
#define MCUSR 0x54
#define STACK_LOW 0x5D
#define STACK_HIGH 0x5E
#define PORT_D 0x2B
#define ADCSRA 0x7A
#define ADCSRA_ENABLE 0x80
#define VECTOR_TIMER1_OVERFLOW 13
#define VECTOR_RECEIVED 18

/* The processor takes four cycles to begin an interrupt (7.7.1), which the emulator does not count. */
#define RESPONSE 4
#define CYCLES_PER_TICK 1024
/* The converter's clock runs from its enabling on (23.4): edges of either kind come each 32 cycles. */
#define EDGE_CYCLES 32

/* A byte is a start bit, eight and a stop bit of 32 cycles each: 500 000 baud. */
#define BYTE_CYCLES 320

void (*emulated_on_byte)(uint8_t byte);

static avr_t *avr;
static avr_uart_t *uart;
static struct model *world;
static struct emulated_figures figures;
static char reason[300];

static uint64_t overflow_at;
static uint64_t overflow_first;
static uint64_t converter_on_at; /* 0: not yet */
static uint64_t tick_entered;
static uint64_t receive_due;
static uint64_t receive_entered;
static bool byte_under_way; /* until its interrupt begins: the emulator's own queue would hold back what comes sooner */
static uint16_t width; /* of the pulse in force in this tick */
static uint64_t line_free_at; /* the shift register has sent all */
static uint64_t tenth_from;
static uint32_t tenth_sent;
static bool foot_down;
static bool restarted;
static uint64_t usual_edge;
static uint64_t first_ticks;

static uint32_t worse(uint64_t now, uint32_t worst) { return now > worst ? (uint32_t)now : worst; }

/* ---- what the emulator tells ---- */

static void on_overflow(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  if (value == 0) {
    return;
  }
  overflow_at = avr->cycle;
  if (figures.ticks == 0 || restarted) {
    overflow_first = avr->cycle;
    first_ticks = figures.ticks;
    restarted = false;
  }
  figures.ticks++;
  model_tick(world, width);
  /* What the last interrupt wrote is taken over now (15.9.3). */
  width = (uint16_t)(avr->data[OCR1A_LOW] | avr->data[OCR1A_HIGH] << 8);
}

static void on_tick_interrupt(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  if (value != 0) {
    tick_entered = avr->cycle;
    figures.entry_worst = worse(tick_entered - overflow_at + RESPONSE, figures.entry_worst);
    return;
  }
  uint64_t ran = avr->cycle - tick_entered + RESPONSE;
  figures.tick_run_sum += ran;
  figures.tick_run_worst = worse(ran, figures.tick_run_worst);
  figures.tick_worst = worse(avr->cycle - overflow_at + RESPONSE, figures.tick_worst);
}

static void on_receive_due(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  if (value != 0) {
    receive_due = avr->cycle;
  }
}

static void on_receive_interrupt(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  if (value != 0) {
    receive_entered = avr->cycle;
    byte_under_way = false;
    figures.receive_wait = worse(receive_entered - receive_due + RESPONSE, figures.receive_wait);
  } else {
    figures.receive_worst = worse(avr->cycle - receive_entered + RESPONSE, figures.receive_worst);
  }
}

static void on_conversion(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  avr_adc_mux_t mux;
  memcpy(&mux, &value, sizeof value);
  if (mux.kind != ADC_MUX_SINGLE || mux.src >= MODEL_CHANNELS) {
    return;
  }
  uint32_t start = (uint32_t)(avr->cycle - overflow_at);
  if (figures.ticks > first_ticks + 2) { /* not the converter's first, which takes longer */
    figures.conversions++;
    figures.start_first = start < figures.start_first ? start : figures.start_first;
    figures.start_last = worse(start, figures.start_last);
    /* Between which edges, counted from the overflow's own place between two. */
    uint64_t edge = (avr->cycle - converter_on_at) / EDGE_CYCLES - (overflow_at - converter_on_at) / EDGE_CYCLES;
    if (usual_edge == 0) {
      usual_edge = edge;
    }
    figures.moved += edge != usual_edge;
  }
  /* The supply is set so that the emulator's millivolts are codes. */
  avr_irq_t *input = avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, (int)(ADC_IRQ_ADC0 + mux.src));
  avr_raise_irq(input, model_convert(world, (int)mux.src));
}

static avr_cycle_count_t register_empty(avr_t *part, avr_cycle_count_t when, void *param) {
  (void)when;
  (void)param;
  avr_raise_interrupt(part, &uart->udrc);
  return 0;
}

/*
 * The port holds one byte behind the one that is being sent (19.6); the emulator knows only one in all and
 * counts eleven bits to it. So the flag that the register is empty is raised from here, when it should be.
 */
static void on_sent(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  uint64_t moved_at = line_free_at > avr->cycle ? line_free_at : avr->cycle;
  line_free_at = moved_at + BYTE_CYCLES;
  avr_cycle_timer_register(avr, moved_at - avr->cycle + 1, register_empty, NULL);
  figures.sent++;
  if (avr->cycle - tenth_from >= avr->frequency / 10) {
    tenth_from = avr->cycle;
    tenth_sent = 0;
  }
  figures.sent_busiest = worse(++tenth_sent, figures.sent_busiest);
  if (emulated_on_byte != NULL) {
    emulated_on_byte((uint8_t)value);
  }
}

/* ---- the board ---- */

static void hook(int vector, int which, avr_irq_notify_t call) {
  avr_irq_register_notify(avr_get_interrupt_irq(avr, (uint8_t)vector) + which, call, NULL);
}

static void quiet(avr_t *part, const int level, const char *format, va_list values) {
  (void)part;
  if (level <= LOG_ERROR) {
    vfprintf(stderr, format, values);
  }
}

bool emulated_load(const char *elf, struct model *model, const char **why) {
  elf_firmware_t firmware;
  *why = reason;
  memset(&firmware, 0, sizeof firmware);
  avr_global_logger_set(quiet);
  FILE *there = fopen(elf, "r");
  if (there == NULL || elf_read_firmware(elf, &firmware) != 0 || firmware.flashsize == 0) {
    snprintf(reason, sizeof reason, "%s is no ELF of the firmware; run make in the firmware's folder.", elf);
    return false;
  }
  fclose(there);
  avr = avr_make_mcu_by_name("atmega328p");
  if (avr == NULL || avr_init(avr) != 0) {
    snprintf(reason, sizeof reason, "The emulator has no ATmega328P.");
    return false;
  }
  avr->frequency = 16000000;
  avr_load_firmware(avr, &firmware);
  avr->vcc = avr->avcc = avr->aref = 1023;
  world = model;
  figures.flash = firmware.flashsize;
  figures.static_ram = firmware.datasize + firmware.bsssize;
  figures.start_first = UINT32_MAX;

  for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
    if (strcmp(io->kind, "uart") == 0) {
      uart = (avr_uart_t *)io;
    }
  }
  uint32_t flags = 0;
  avr_ioctl(avr, AVR_IOCTL_UART_GET_FLAGS('0'), &flags);
  flags &= ~(uint32_t)(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
  avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
  hook(VECTOR_TIMER1_OVERFLOW, AVR_INT_IRQ_PENDING, on_overflow);
  hook(VECTOR_TIMER1_OVERFLOW, AVR_INT_IRQ_RUNNING, on_tick_interrupt);
  hook(VECTOR_RECEIVED, AVR_INT_IRQ_PENDING, on_receive_due);
  hook(VECTOR_RECEIVED, AVR_INT_IRQ_RUNNING, on_receive_interrupt);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_OUT_TRIGGER), on_conversion, NULL);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), on_sent, NULL);
  emulated_reset(RESET_POWER);
  return true;
}

void emulated_reset(enum emulated_cause cause) {
  static const uint8_t flags[] = {0x01, 0x02, 0x04}; /* PORF, EXTRF, BORF (10.9.1) */
  avr_reset(avr);
  avr->data[MCUSR] = flags[cause];
  width = (uint16_t)world->drive_mid;
  overflow_at = avr->cycle;
  byte_under_way = false;
  line_free_at = avr->cycle;
  restarted = true;
  converter_on_at = 0;
  emulated_foot(foot_down);
}

bool emulated_run(uint64_t cycles) {
  uint64_t until = avr->cycle + cycles;
  while (avr->cycle < until) {
    int state = avr_run(avr);
    if (state == cpu_Done || state == cpu_Crashed) {
      return false;
    }
    if (converter_on_at == 0 && (avr->data[ADCSRA] & ADCSRA_ENABLE) != 0) {
      converter_on_at = avr->cycle;
    }
    uint32_t top = (uint32_t)(avr->data[STACK_LOW] | avr->data[STACK_HIGH] << 8);
    if (top > 0x100 && avr->ramend - top > figures.stack_used) {
      figures.stack_used = avr->ramend - top;
    }
  }
  figures.cycles = avr->cycle;
  return true;
}

bool emulated_can_hear(void) { return !byte_under_way; }

void emulated_hear(uint8_t byte) {
  if (!avr_regbit_get(avr, uart->rxen)) {
    return; /* nobody listens yet: lost, as on the part */
  }
  byte_under_way = true;
  uart->cycles_per_byte = BYTE_CYCLES;
  figures.received++;
  avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT), byte);
}

void emulated_foot(bool down) {
  /* Held against the pull-up, which the emulator would else apply with each write to the port. */
  avr_ioport_external_t held = {.name = 'D', .mask = 1 << 2, .value = down ? 0 : 1 << 2};
  avr_ioctl(avr, AVR_IOCTL_IOPORT_SET_EXTERNAL('D'), &held);
  foot_down = down;
  avr_irq_t *pin = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 2);
  avr_raise_irq(pin, down ? 1 : 0); /* a level that does not change would not be passed on */
  avr_raise_irq(pin, down ? 0 : 1);
}

void emulated_lamps(bool lit[4]) {
  for (int i = 0; i < 4; i++) {
    lit[i] = (avr->data[PORT_D] >> (4 + i) & 1) != 0;
  }
}

const struct emulated_figures *emulated_figures(void) {
  uint64_t due = restarted ? 0 : (overflow_at - overflow_first) / CYCLES_PER_TICK + 1;
  uint64_t came = figures.ticks - first_ticks;
  figures.ticks_lost = due > came ? due - came : 0;
  return &figures;
}

uint64_t emulated_now(void) { return avr->cycle; }
