/*
 * Records channels: takes every code in the tick interrupt, keeps those that are asked for in a short
 * queue, and hands them to the main loop, which sends them.
 */
#ifndef RECORDER_H
#define RECORDER_H

#include <stdbool.h>
#include <stdint.h>

#include "board.h"
#include "limits.h"

/* One place stays empty. stream.c holds it to what a line takes. */
#define RECORDER_QUEUE BOARD_QUEUE_SAMPLES

struct recorder_order {
  uint8_t channels;
  decimation decimate;
  uint32_t frames;
  uint32_t skip;
};

struct recorder_sight {
  uint16_t low;
  uint16_t high;
};

struct recorder {
  bool running;      /* samples are being taken */
  volatile bool overrun; /* the queue was full: what follows would not be gapless */
  uint8_t channels;  /* in a frame */
  decimation decimate;
  decimation left_in_sum;
  uint32_t skip;     /* sums yet to leave out */
  uint32_t frames;   /* sums yet to queue */
  sample sum[BOARD_CHANNELS];
  struct recorder_sight sight[BOARD_CHANNELS];
};

extern struct recorder recorder_now;

/* In the tick interrupt: one code of one channel. */
void recorder_take(uint8_t channel, uint16_t code);

/* In the main loop: begins on the next tick, channel 0 first; returns the tick of the first frame
 * that will be sent. */
uint32_t recorder_begin(const struct recorder_order *order);
/* No more samples are taken; those queued remain. */
void recorder_cease(void);

uint8_t recorder_queued(void);
/* The oldest sample; only when recorder_queued() is not zero. */
sample recorder_next(void);

#endif
