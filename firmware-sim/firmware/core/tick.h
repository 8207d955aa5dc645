/*
 * What happens once a tick.
 *
 * The interrupt owns what it moves; the main loop looks at it between board_hold() and board_release(), which
 * also keep the compiler from moving such looks out of there. So little of it need be volatile.
 *
 * In its tick interrupt a board, in this order: reads the code of the conversion that has ended; starts
 * the next one on tick_pending, at a fixed place in the tick; calls tick_take() with the code; calls
 * tick_drive() and puts its level out from the next tick on.
 */
#ifndef TICK_H
#define TICK_H

#include <stdint.h>

#include "wave.h"

/* Ticks since the start; wraps after 76 hours. The main loop reads it with tick_read(). */
extern uint32_t tick_now;

/* The channel to start in the coming interrupt. */
extern uint8_t tick_pending;

uint32_t tick_read(void);

/* In the interrupt: counts the tick and takes the code of the conversion that the last one started. */
void tick_take(uint16_t code);

/* In the interrupt: the drive level, -level_max to level_max, to put out from the next tick on. */
static inline int16_t tick_drive(void) { return wave_next(); }

/* With the tick held: frames of so many channels begin in the coming interrupt, which starts channel
 * 0; returns that interrupt's tick. */
uint32_t tick_restart_frames(uint8_t channels);

/* Frames and clipped frames seen since the last call; a frame is clipped when a code of it stands at
 * 0 or the highest code. */
struct tick_clipping {
  uint16_t frames; /* taken every 250 ms or sooner: at most 1954 */
  uint16_t clipped[3];
  uint16_t clipped_frames;
};
void tick_clipping_take(struct tick_clipping *into);

#endif
