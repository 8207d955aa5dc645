/* Limits that this firmware states of itself, and what follows from them. */
#ifndef LIMITS_H
#define LIMITS_H

#include <stdint.h>

#include "board_config.h"

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
