/*
 * The wave player: a phase accumulator over a sine in flash or a table in memory.
 *
 * wave_next() runs in the tick interrupt; the rest in the main loop, with the tick held while the
 * state changes.
 */
#ifndef WAVE_H
#define WAVE_H

#include <stdint.h>

#include "board.h"

enum wave_kind { WAVE_NONE, WAVE_TONE, WAVE_TABLE, WAVE_DC };

/* A place in the period: which point, and how far to the next in units of 2^-32. Held so, and not as a phase
 * of 32 bits, nothing need be shifted or multiplied to find the point. */
struct wave_place {
  uint32_t fraction;
  uint16_t point;
};

struct wave {
  struct wave_place place;
  struct wave_place step; /* what a tick adds */
  uint16_t last; /* points - 1; points is a power of two */
  uint16_t gain; /* level / 32512 in units of 2^-16, see wave_next() */
  int16_t dc;
  int16_t peak;  /* level + |dc| */
  uint8_t kind;  /* enum wave_kind */
};

extern struct wave wave_now;
extern int8_t wave_points[BOARD_WAVE_POINTS];

/* Full deflection of the interpolated wave: 127 x 256. */
#define WAVE_FULL 32512
#define WAVE_SINE_POINTS 256

/* The drive level, -511 to 511 around mid-scale, for this tick; moves the phase on. */
int16_t wave_next(void);

/* Starts at phase zero with the next tick_drive(); returns the tick at which that is put out. */
uint32_t wave_start(const struct wave *wave);
void wave_stop(void);

/* Sets points and step: 2^32 is one period. A tone has WAVE_SINE_POINTS. */
void wave_shape(struct wave *wave, uint16_t points, uint32_t step);

/* The gain for a level. */
uint16_t wave_gain(uint16_t level);

#endif
