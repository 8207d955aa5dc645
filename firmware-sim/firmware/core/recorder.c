#include "recorder.h"

#include "tick.h"

struct recorder recorder_now;

static sample queue[RECORDER_QUEUE];
static volatile uint8_t queue_head; /* written by the interrupt */
static volatile uint8_t queue_tail; /* written by the main loop */

static uint8_t after(uint8_t index) {
  return (uint8_t)(index + 1U == RECORDER_QUEUE ? 0U : index + 1U);
}

static void push(sample value) {
  uint8_t next = after(queue_head);
  if (next == queue_tail) {
    recorder_now.overrun = true;
    recorder_now.running = false;
    return;
  }
  queue[queue_head] = value;
  queue_head = next;
}

static void note(struct recorder_sight *sight, uint16_t code) {
  if (code < sight->low) {
    sight->low = code;
  }
  if (code > sight->high) {
    sight->high = code;
  }
}

void recorder_take(uint8_t channel, uint16_t code) {
  struct recorder *r = &recorder_now;
  if (!r->running) {
    return;
  }
  bool last_channel = channel + 1U == r->channels;
  if (r->skip == 0) {
    note(&r->sight[channel], code);
    if (r->decimate == 1) {
      push(code);
    } else {
      sample sum = (sample)(r->sum[channel] + code);
      bool complete = r->left_in_sum == 1;
      r->sum[channel] = complete ? 0 : sum;
      if (complete) {
        push(sum);
      }
    }
  }
  if (!last_channel || --r->left_in_sum != 0) {
    return;
  }
  r->left_in_sum = r->decimate;
  if (r->skip != 0) {
    r->skip--;
  } else if (--r->frames == 0) {
    r->running = false;
  }
}

uint32_t recorder_begin(const struct recorder_order *order) {
  board_hold();
  struct recorder *r = &recorder_now;
  r->channels = order->channels;
  r->decimate = order->decimate;
  r->left_in_sum = order->decimate;
  r->skip = order->skip;
  r->frames = order->frames;
  r->overrun = false;
  for (uint8_t channel = 0; channel < BOARD_CHANNELS; channel++) {
    r->sum[channel] = 0;
    r->sight[channel].low = UINT16_MAX;
    r->sight[channel].high = 0;
  }
  queue_head = 0;
  queue_tail = 0;
  uint32_t first = tick_restart_frames(order->channels);
  r->running = true;
  board_release();
  return first + order->skip * order->decimate * order->channels;
}

void recorder_cease(void) {
  board_hold();
  recorder_now.running = false;
  board_release();
}

uint8_t recorder_queued(void) {
  uint8_t head = queue_head;
  uint8_t tail = queue_tail;
  return (uint8_t)(head >= tail ? head - tail : head + RECORDER_QUEUE - tail);
}

sample recorder_next(void) {
  uint8_t tail = queue_tail;
  sample value = queue[tail];
  queue_tail = after(tail);
  return value;
}
