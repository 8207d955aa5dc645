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

struct wave {
  uint32_t phase;
  uint32_t step;
  uint16_t gain; /* level / 32512 in units of 2^-16, see wave_next() */
  int16_t dc;
  uint8_t kind;  /* enum wave_kind */
  uint8_t shift; /* 16 - log2(points), table only */
  int16_t peak;  /* level + |dc| */
};

extern volatile struct wave wave_now;
extern int8_t wave_points[BOARD_WAVE_POINTS];

/* Full deflection of the interpolated wave: 127 x 256. */
#define WAVE_FULL 32512

/* The drive level, -511 to 511 around mid-scale, for this tick; moves the phase on. */
int16_t wave_next(void);

/* Starts at phase zero with the next tick_drive(); returns the tick at which that is put out. */
uint32_t wave_start(const struct wave *wave);
void wave_stop(void);

/* What level to use in struct wave. */
uint16_t wave_gain(uint16_t level);

#endif
