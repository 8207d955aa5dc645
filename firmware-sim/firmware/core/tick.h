/*
 * What happens once a tick.
 *
 * In its tick interrupt a board reads the code of the conversion that has ended, at once starts the
 * next one on tick_pending, so that the start stands at a fixed place in the tick, and then calls
 * tick_handle() with the code.
 */
#ifndef TICK_H
#define TICK_H

#include <stdint.h>

/* Ticks since the start; wraps after 76 hours. The main loop reads it with tick_read(). */
extern volatile uint32_t tick_now;

/* The channel to start in the coming interrupt. */
extern volatile uint8_t tick_pending;

uint32_t tick_read(void);

/* In the interrupt: moves everything on by one tick. Returns the drive level, -level_max to
 * level_max, to put out from the next tick on. */
int16_t tick_handle(uint16_t code);

/* With the tick held: frames of so many channels begin in the coming interrupt, which starts channel
 * 0; returns that interrupt's tick. */
uint32_t tick_restart_frames(uint8_t channels);

/* Frames and clipped frames seen since the last call; a frame is clipped when a code of it stands at
 * 0 or the highest code. */
struct tick_clipping {
  uint16_t frames;
  uint16_t clipped[3];
  uint16_t clipped_frames;
};
void tick_clipping_take(struct tick_clipping *into);

#endif
