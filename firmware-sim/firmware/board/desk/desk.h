/*
 * The desk: a board that exists in simulated time alone, for tests of the core.
 *
 * Time passes only while the core waits or turns, in processor cycles. A byte out takes ten bits of the
 * link; bytes in arrive at the same pace; a tick falls due every BOARD_TICK_CYCLES whatever the core
 * does. Nothing here depends on the machine's clock, so a run repeats exactly.
 */
#ifndef DESK_H
#define DESK_H

#include <setjmp.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "board.h"

struct desk {
  uint64_t now;       /* cycles since power came */
  uint32_t link_baud; /* what the link really carries; the core states BOARD_BAUD */
  uint16_t wait_cycles; /* what one look at the port costs */
  uint16_t put_cycles;  /* what making one character costs */

  /* The code that a conversion on a channel gives; it is started in the tick of this number. */
  uint16_t (*convert)(uint8_t channel, uint32_t tick);
  int16_t level;      /* that the drive stands at */
  void (*on_level)(uint32_t tick, int16_t level); /* or NULL */

  bool contact;       /* of the foot switch */
  uint8_t lamps;
  bool buzzer;
  uint64_t buzzed;    /* how long it sounded last, in cycles */
  uint32_t fed;       /* how often the watchdog was fed */
  bool ticks_stand;   /* no tick falls due any more */

#if BOARD_KEEP_BYTES > 0
  uint8_t keep[BOARD_KEEP_BYTES];
#endif
  int32_t keep_writes_left; /* power fails in the write after so many; -1: never */
  int16_t keep_torn;        /* what the byte of that write then holds; -1: as it was */
  int16_t keep_worn;        /* a byte that keeps what it holds; -1: none */
  jmp_buf power_failed;     /* taken then */

  char *said;         /* all that the jig has said since it was last read */
  size_t said_length;
};

extern struct desk desk;

/* Power comes for the first time: an empty memory, nothing connected, codes at mid-scale. */
void desk_begin(void);

/* The processor starts anew, for this cause; memory and wiring stay as they are. */
void desk_restart(enum board_cause cause);

/* The host puts bytes on its end of the link. */
void desk_hear(const void *bytes, size_t count);
/* Whether all of them have arrived. */
bool desk_heard_all(void);

/* Lets the main loop turn for so long. */
void desk_run(uint64_t cycles);
#define DESK_MS(ms) ((uint64_t)(ms) * (BOARD_CLOCK_HZ / 1000))

/* The next line that the jig has said, without its end, or NULL; valid until the next call. */
const char *desk_line(void);

#endif
