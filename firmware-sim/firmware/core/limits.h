/* Limits of version 1 that this firmware states of itself. */
#ifndef LIMITS_H
#define LIMITS_H

/* 524 288 frames are 67 s of undecimated pairs; block numbers stay below 2^16. */
#define LIMIT_FRAMES 524288
/* 64 x 1023 fits 16 bits. */
#define LIMIT_DECIMATE 64

#endif
