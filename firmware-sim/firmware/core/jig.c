#include "jig.h"

#include "board.h"
#include "command.h"
#include "out.h"
#include "request.h"
#include "tick.h"
#include "wave.h"

/* A reply may be begun while fewer samples than this wait: with the 50 that come during the longest
 * line, the queue of 80 still holds. */
#define REPLY_BELOW 24

struct jig_counters jig_counters;

static struct request request;
static enum request_state heard; /* a line waits to be answered */
static uint32_t last_request;

static struct jig_record record; /* id 0: none is being sent */
static uint8_t last_record;
static uint32_t frames_left;
static uint32_t blocks_sent;

static uint8_t lamps_lit;
static uint8_t lamps_blinking;
static bool halt_shown;
static uint32_t blink_from;
static uint32_t buzz_from;
static uint32_t buzz_ticks;

static bool foot_told;
static bool foot_seen;
static uint32_t foot_since;

static uint32_t window_from;
static uint32_t clipping_told;
static bool clipping_was_told;

void jig_count(uint32_t *counter) {
  if (*counter != UINT32_MAX) {
    ++*counter;
  }
}

static bool running(void) { return wave_now.kind != WAVE_NONE || record.id != 0; }

/* ---- lines in ---- */

void jig_wait(void) {
  board_rest();
  if (board_serial_lost() != 0) {
    request_spoil();
  }
  while (heard == REQUEST_NONE) {
    int16_t byte = board_serial_get();
    if (byte < 0) {
      return;
    }
    heard = request_take((uint8_t)byte, &request);
  }
}

static void answer(void) {
  if (heard == REQUEST_WHOLE) {
    if (command_obey(&request)) {
      last_request = tick_read();
    }
  } else {
    command_refuse_line(request.damage);
  }
  heard = REQUEST_NONE;
}

/* ---- records out ---- */

uint8_t jig_next_record(void) { return (uint8_t)(last_record == UINT8_MAX ? 1U : last_record + 1U); }

void jig_record_begun(const struct jig_record *begun) {
  record = *begun;
  last_record = begun->id;
  frames_left = begun->frames;
  blocks_sent = 0;
}

uint8_t jig_recording(void) { return record.id; }

static void sights(flash_text key, bool high) {
  out_key(key);
  for (uint8_t channel = 0; channel < recorder_now.channels; channel++) {
    if (channel > 0) {
      out_char(',');
    }
    volatile struct recorder_sight *sight = &recorder_now.sight[channel];
    out_u32(high ? sight->high : sight->low);
  }
}

static void tell_recorded(void) {
  uint32_t sent = record.frames - frames_left;
  out_text(TEXT("! recorded"));
  out_field_u32(TEXT("record"), record.id);
  out_field_u32(TEXT("frames"), sent);
  out_field_u32(TEXT("blocks"), blocks_sent);
  out_field_text(TEXT("complete"), frames_left == 0 ? TEXT("yes") : TEXT("no"));
  if (sent > 0) {
    sights(TEXT("low"), false);
    sights(TEXT("high"), true);
  }
  out_end();
  record.id = 0;
}

static uint16_t await_sample(void) {
  while (recorder_queued() == 0) {
    jig_wait();
  }
  return recorder_next();
}

static void send_block(uint8_t frames) {
  out_text(TEXT(": "));
  out_hex8(record.id);
  out_char(' ');
  out_hex16((uint16_t)blocks_sent);
  out_char(' ');
  for (uint8_t left = (uint8_t)(frames * recorder_now.channels); left > 0; left--) {
    uint16_t value = await_sample();
    if (record.digits == 3) {
      out_digit64((uint8_t)(value >> 12));
    }
    out_digit64((uint8_t)(value >> 6));
    out_digit64((uint8_t)value);
  }
  out_end();
  blocks_sent++;
  frames_left -= frames;
}

/* Sends a block if one can be sent without holding up commands for long. */
static void stream(void) {
  if (record.id == 0) {
    return;
  }
  uint8_t frames = (uint8_t)(frames_left < record.block_frames ? frames_left : record.block_frames);
  uint8_t samples = (uint8_t)(frames * recorder_now.channels);
  uint8_t queued = recorder_queued();
  /* Undecimated samples fill a block in 4 ms, so its sending may run along; sums are waited for. */
  bool ready = record.digits == 2 ? queued > 0 : queued >= samples;
  if (recorder_now.overrun && queued < samples) {
    out_text(TEXT("! overrun"));
    out_field_u32(TEXT("record"), record.id);
    out_end();
    jig_count(&jig_counters.overruns);
    tell_recorded();
  } else if (frames > 0 && ready) {
    send_block(frames);
    if (frames_left == 0) {
      tell_recorded();
    }
  }
}

void jig_between_lines(void) {
  while (record.id != 0 && recorder_queued() >= REPLY_BELOW) {
    stream();
  }
}

/* ---- halts ---- */

void jig_rest(void) {
  wave_stop();
  recorder_cease();
  if (record.id != 0) {
    tell_recorded();
  }
}

void jig_halt(flash_text cause) {
  if (!running()) {
    return;
  }
  jig_rest();
  jig_count(&jig_counters.halts);
  halt_shown = true;
  out_text(TEXT("! halted"));
  out_field_text(TEXT("cause"), cause);
  out_end();
}

static void watch_silence(uint32_t now) {
  if (running() && now - last_request >= JIG_TICKS(JIG_SILENCE_MS)) {
    jig_halt(TEXT("silence"));
  }
}

static uint8_t worst_of(const struct tick_clipping *seen) {
  uint8_t worst = 0;
  for (uint8_t channel = 1; channel < BOARD_CHANNELS; channel++) {
    if (seen->clipped[channel] > seen->clipped[worst]) {
      worst = channel;
    }
  }
  return worst;
}

static void watch_clipping(uint32_t now) {
  if (now - window_from < JIG_TICKS(500)) {
    return;
  }
  window_from = now;
  struct tick_clipping seen;
  tick_clipping_take(&seen);
  if (wave_now.kind == WAVE_NONE || seen.clipped_frames == 0) {
    return;
  }
  uint32_t room = UINT32_MAX - jig_counters.clipped;
  jig_counters.clipped += seen.clipped_frames < room ? seen.clipped_frames : room;
  if (!clipping_was_told || now - clipping_told >= JIG_TICKS(1000)) {
    uint8_t worst = worst_of(&seen);
    clipping_was_told = true;
    clipping_told = now;
    out_text(TEXT("! clipping"));
    out_field_u32(TEXT("channel"), worst);
    out_field_u32(TEXT("frames"), seen.clipped[worst]);
    out_end();
  }
  if (seen.clipped_frames > seen.frames / 2U) {
    jig_halt(TEXT("clipping"));
  }
}

/* ---- foot switch, lamps, buzzer ---- */

bool jig_foot_down(void) { return foot_told; }

static void watch_foot(uint32_t now) {
  bool down = board_foot_down();
  if (down != foot_seen) {
    foot_seen = down;
    foot_since = now;
  }
  if (foot_seen != foot_told && now - foot_since >= JIG_TICKS(20)) {
    foot_told = foot_seen;
    out_text(TEXT("! foot"));
    out_field_text(TEXT("state"), foot_told ? TEXT("down") : TEXT("up"));
    out_end();
  }
}

void jig_lamp(uint8_t lamp, enum lamp_state state) {
  lamps_lit = (uint8_t)(state == LAMP_ON ? lamps_lit | lamp : lamps_lit & (uint8_t)~lamp);
  lamps_blinking =
      (uint8_t)(state == LAMP_BLINK ? lamps_blinking | lamp : lamps_blinking & (uint8_t)~lamp);
}

void jig_lamp_calm(void) { halt_shown = false; }

void jig_buzz(uint16_t milliseconds) {
  buzz_from = tick_read();
  buzz_ticks = JIG_TICKS(milliseconds);
  board_buzzer_write(true);
}

static void show(uint32_t now) {
  if (now - blink_from >= JIG_TICKS(500)) {
    blink_from = now;
  }
  bool bright = now - blink_from < JIG_TICKS(250);
  uint8_t blinking = (uint8_t)(lamps_blinking | (halt_shown ? LAMP_BUSY : 0));
  board_lamps_write((uint8_t)((lamps_lit & (uint8_t)~blinking) | (bright ? blinking : 0)));
  if (buzz_ticks != 0 && now - buzz_from >= buzz_ticks) {
    buzz_ticks = 0;
    board_buzzer_write(false);
  }
}

/* ---- the main loop ---- */

static flash_text cause_name(void) {
  switch (board_start_cause()) {
    case CAUSE_RESET:
      return TEXT("reset");
    case CAUSE_BROWN_OUT:
      return TEXT("brown-out");
    case CAUSE_WATCHDOG:
      return TEXT("watchdog");
    case CAUSE_POWER:
    default:
      return TEXT("power");
  }
}

void jig_start(void) {
  out_text(TEXT("! ready"));
  out_field_text(TEXT("cause"), cause_name());
  out_text(TEXT(" protocol=1 firmware=" JIG_FIRMWARE " board=" BOARD_NAME));
  out_end();
}

void jig_turn(void) {
  jig_wait();
  uint32_t now = tick_read();
  show(now);
  if (recorder_queued() < REPLY_BELOW) {
    watch_foot(now);
    watch_clipping(now);
    watch_silence(now);
    if (heard != REQUEST_NONE) {
      answer();
    }
  }
  stream();
}
