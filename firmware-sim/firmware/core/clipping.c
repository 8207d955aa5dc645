#include "clipping.h"

#include <stdint.h>
#include <string.h>

#include "board.h"
#include "jig.h"
#include "out.h"
#include "tick.h"
#include "wave.h"

/* The two last quarters of a second, and what is not told yet. */
static struct tick_clipping quarter[2];
static uint32_t quarter_from;
static uint16_t untold[BOARD_CHANNELS];
static uint8_t quarters_quiet; /* that must pass until clipping is told again */

static void add_seen(const struct tick_clipping *seen) {
  quarter[0].frames = (uint16_t)(quarter[0].frames + seen->frames);
  for (uint8_t channel = 0; channel < BOARD_CHANNELS; channel++) {
    quarter[0].clipped[channel] = (uint16_t)(quarter[0].clipped[channel] + seen->clipped[channel]);
  }
}

void clipping_gather(void) {
  struct tick_clipping seen;
  tick_clipping_take(&seen);
  add_seen(&seen);
  if (wave_now.kind == WAVE_NONE) {
    return;
  }
  uint32_t room = JIG_COUNT_MAX - jig_counters.clipped;
  jig_counters.clipped += seen.clipped_frames < room ? seen.clipped_frames : room;
  for (uint8_t channel = 0; channel < BOARD_CHANNELS; channel++) {
    /* Told once a second, in which 7813 frames pass. */
    untold[channel] = (uint16_t)(untold[channel] + seen.clipped[channel]);
  }
}

void clipping_forget(void) {
  clipping_gather();
  memset(quarter, 0, sizeof quarter);
  memset(untold, 0, sizeof untold);
  quarter_from = tick_read();
}

/* A channel stood at an end in more than half of the frames of the last two quarters. */
static bool clipping_lasts(void) {
  uint16_t frames = (uint16_t)(quarter[0].frames + quarter[1].frames);
  for (uint8_t channel = 0; channel < BOARD_CHANNELS; channel++) {
    uint16_t clipped = (uint16_t)(quarter[0].clipped[channel] + quarter[1].clipped[channel]);
    if (clipped > frames / 2U) {
      return true;
    }
  }
  return false;
}

static bool tell_clipping(void) {
  uint8_t worst = 0;
  for (uint8_t channel = 1; channel < BOARD_CHANNELS; channel++) {
    if (untold[channel] > untold[worst]) {
      worst = channel;
    }
  }
  if (wave_now.kind == WAVE_NONE || untold[worst] == 0 || quarters_quiet > 0) {
    return false;
  }
  quarters_quiet = 4;
  out_text(TEXT("! clipping"));
  out_field_u32(TEXT("channel"), worst);
  out_field_u32(TEXT("frames"), untold[worst]);
  out_end();
  memset(untold, 0, sizeof untold);
  return true;
}

bool clipping_watch(uint32_t now) {
  if (now - quarter_from < JIG_TICKS(250)) {
    return false;
  }
  clipping_gather();
  if (tell_clipping()) {
    return true; /* the rest in the next turn */
  }
  quarter_from = now;
  quarters_quiet = (uint8_t)(quarters_quiet > 0 ? quarters_quiet - 1U : 0U);
  bool whole = quarter[1].frames != 0; /* else the half second is not over yet */
  bool halt = whole && jig_runs() && clipping_lasts();
  quarter[1] = quarter[0];
  memset(&quarter[0], 0, sizeof quarter[0]);
  if (halt) {
    jig_halt(TEXT("clipping"));
  }
  return halt;
}
