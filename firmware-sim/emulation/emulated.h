/*
 * An ATmega328P that runs the firmware's own ELF, with the analog world at its pins.
 *
 * At each overflow of Timer 1 the model takes one tick with the pulse width that was in force; a conversion
 * that the firmware starts reads the model as that tick ended. Bytes pass at 500 000 baud each way.
 */
#ifndef EMULATED_H
#define EMULATED_H

#include <stdbool.h>
#include <stdint.h>

#include "model.h"

struct emulated_figures {
  uint64_t cycles;
  uint64_t ticks;
  uint32_t tick_worst;     /* cycles from the timer's overflow to the end of its interrupt */
  uint32_t tick_run_worst; /* the same from the first instruction on */
  uint64_t tick_run_sum;
  uint32_t entry_worst;    /* from the overflow to the first instruction */
  uint32_t start_first;    /* cycles from the overflow to the earliest start of a conversion */
  uint32_t start_last;
  uint64_t moved;          /* conversions that began with a later edge of the converter's clock than usual */
  uint64_t conversions;
  uint32_t receive_worst;  /* cycles of the longest receive interrupt */
  uint32_t receive_wait;   /* the longest that a byte waited for it */
  uint32_t sent_busiest;   /* bytes sent in the busiest tenth of a second */
  uint64_t sent;
  uint64_t received;
  uint32_t stack_used;     /* bytes below the end of memory that the stack reached */
  uint32_t flash;
  uint32_t static_ram;
  uint64_t ticks_lost;     /* overflows whose interrupt never came */
};

enum emulated_cause { RESET_POWER, RESET_EXTERNAL, RESET_BROWN_OUT };

/* Loads an ELF. False, with one sentence in *why. */
bool emulated_load(const char *elf, struct model *world, const char **why);
void emulated_reset(enum emulated_cause cause);

/* Runs for so many cycles; false when the processor has crashed or stopped. */
bool emulated_run(uint64_t cycles);

/* Ready for a byte: the line is not busy with the last. */
bool emulated_can_hear(void);
void emulated_hear(uint8_t byte);
/* Called with each byte that the board sends. */
extern void (*emulated_on_byte)(uint8_t byte);

void emulated_foot(bool down);
/* Pins as the firmware drives them: pass, fail, busy, buzzer. */
void emulated_lamps(bool lit[4]);

uint64_t emulated_now(void); /* cycles */

const struct emulated_figures *emulated_figures(void);

#endif
