/* The jig as a whole: what runs, when it halts, what it tells by itself, and the main loop's turn. */
#ifndef JIG_H
#define JIG_H

#include <stdbool.h>
#include <stdint.h>

#include "board_config.h"
#include "text.h"

#define JIG_FIRMWARE "0.1.0"
#define JIG_SILENCE_MS 2000

struct jig_counters {
  uint32_t clipped;
  uint32_t damaged;
  uint32_t refused;
  uint32_t overruns;
  uint32_t halts;
};

/* Eight digits: with five counters of more a reply might outgrow its line. */
#define JIG_COUNT_MAX 99999999

extern struct jig_counters jig_counters;

/* Announces the start. */
void jig_start(void);

/* One turn of the main loop. */
void jig_turn(void);

/* While something waits for the port: bytes that come are taken meanwhile. */
void jig_wait(void);

/* Wave and record end and the drive rests at mid-scale; an unfinished record is told. */
void jig_rest(void);
/* jig_rest() and "! halted", if anything ran. */
void jig_halt(flash_text cause);

/* Whether a wave or record runs. */
bool jig_runs(void);
/* Before a wave or record starts: the sign of a halt ends; clipping is counted afresh if nothing ran. */
void jig_before_start(void);

void jig_count(uint32_t *counter);

/* Milliseconds as ticks. */
#define JIG_TICKS(ms) ((uint32_t)(((uint64_t)(ms) * BOARD_CLOCK_HZ) / (1000ULL * BOARD_TICK_CYCLES)))

#endif
