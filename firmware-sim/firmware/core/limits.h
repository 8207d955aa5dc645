/* Limits that this firmware states of itself, and what follows from them. */
#ifndef LIMITS_H
#define LIMITS_H

#include <stdint.h>

#include "board_config.h"

#if BOARD_CHANNELS != 2 && BOARD_CHANNELS != 3
#error "BOARD_CHANNELS must be 2 or 3"
#endif
#if BOARD_CODES > 4096
#error "a code must fit two base64 digits: BOARD_CODES is 4096 at most"
#endif
#if BOARD_WAVE_POINTS < 16
#error "the protocol asks for 16 wave points or more: BOARD_WAVE_POINTS"
#endif
/* Gain and peak (wave.h) are held in 16 bits. */
#if BOARD_LEVEL_MAX < 3 || BOARD_LEVEL_MAX > 16000
#error "BOARD_LEVEL_MAX must be 3 to 16000"
#endif
/* A step is worked out in 64 bits (obey_play.c). Only the ratio of clock and cycles counts, so a fast board states both smaller. */
#if BOARD_TICK_CYCLES > 2048
#error "BOARD_TICK_CYCLES must be 2048 at most: state it and BOARD_CLOCK_HZ divided by the same number"
#endif
/* 2 000 000 millihertz must be a step below 2^31. */
#if BOARD_CLOCK_HZ < 4001 * BOARD_TICK_CYCLES
#error "ticks must come 4001 times a second or more"
#endif
#if BOARD_DECIMATE_MAX * (BOARD_CODES - 1) > 262143
#error "a sum must fit three base64 digits"
#endif

/* A sum of up to BOARD_DECIMATE_MAX codes. */
#if BOARD_DECIMATE_MAX * (BOARD_CODES - 1) > 65535
typedef uint32_t sample;
#else
typedef uint16_t sample;
#endif

/* Frames in a sum. */
#if BOARD_DECIMATE_MAX > 255
typedef uint16_t decimation;
#else
typedef uint8_t decimation;
#endif

#endif
