#include "tick.h"

#include <stdbool.h>

#include "board.h"
#include "recorder.h"

uint32_t tick_now;
uint8_t tick_pending;

static uint8_t converted; /* the channel whose conversion the next interrupt finds ended */
static bool stale;        /* that conversion began before the frames were restarted */
static uint8_t frame_channels = 2;
static bool frame_clipped;
static struct tick_clipping clipping;

static void watch(uint8_t channel, uint16_t code) {
  if (code == 0 || code == BOARD_CODES - 1) {
    clipping.clipped[channel]++;
    frame_clipped = true;
  }
  if (channel + 1U == frame_channels) {
    clipping.frames++;
    if (frame_clipped) {
      clipping.clipped_frames++;
      frame_clipped = false;
    }
  }
}

void tick_take(uint16_t code) {
  uint8_t channel = converted;
  converted = tick_pending;
  tick_pending = (uint8_t)(tick_pending + 1U == frame_channels ? 0U : tick_pending + 1U);
  tick_now++;
  if (stale) {
    stale = false;
  } else {
    watch(channel, code);
    recorder_take(channel, code);
  }
}

uint32_t tick_restart_frames(uint8_t channels) {
  frame_channels = channels;
  tick_pending = 0;
  stale = true;
  frame_clipped = false;
  return tick_now + 1;
}

uint32_t tick_read(void) {
  board_hold();
  uint32_t now = tick_now;
  board_release();
  return now;
}

void tick_clipping_take(struct tick_clipping *into) {
  board_hold();
  *into = clipping;
  clipping = (struct tick_clipping){0};
  board_release();
}
