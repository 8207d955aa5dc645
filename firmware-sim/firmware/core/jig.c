#include "jig.h"

#include <string.h>

#include "board.h"
#include "command.h"
#include "out.h"
#include "request.h"
#include "tick.h"
#include "wave.h"

/*
 * A line of up to 160 characters and its end takes 3.3 ms at 500 000 baud, in which 51 undecimated or
 * 26 summed samples come. It may be begun while fewer than so many wait, and the queue of 78 still
 * holds. A block of sums (42 at most) is sent before that many wait, so lines never wait for sums.
 */
#define LINE_BELOW_RAW 16
#define LINE_BELOW_SUMS 50

/* On while this bit of the tick is set: 0.26 s of each 0.52 s, where a tick is 64 us. */
#define BLINK_TICK 4096U

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
static uint32_t buzz_from;
static uint32_t buzz_ticks;

static bool foot_told;
static bool foot_seen;
static uint32_t foot_since;

/* Clipping: the two last quarters of a second, and what is not told yet. */
static struct tick_clipping quarter[2];
static uint32_t quarter_from;
static uint16_t untold[BOARD_CHANNELS];
static uint8_t quarters_quiet; /* that must pass until clipping is told again */

static uint8_t tick_fed; /* the tick, modulo 256, at which the watchdog was last fed */

void jig_count(uint32_t *counter) {
  if (*counter != JIG_COUNT_MAX) {
    ++*counter;
  }
}

static bool running(void) { return wave_now.kind != WAVE_NONE || record.id != 0; }

/* ---- lines in ---- */

/* Apart, so that a wait in which nothing comes costs little: it is the innermost loop of all sending. */
static void __attribute__((noinline)) take(uint8_t byte) { heard = request_take(byte, &request); }

void jig_wait(void) {
  board_wait();
  while (heard == REQUEST_NONE) {
    int16_t byte = board_serial_get();
    if (byte < 0) {
      return;
    }
    take((uint8_t)byte);
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
    const struct recorder_sight *sight = &recorder_now.sight[channel];
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

/* Ends: samples come while the recorder runs, and what an overrun leaves in the queue is a block and more. */
static sample await_sample(void) {
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
    sample value = await_sample();
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

/* Whether a line may be begun without the queue filling up meanwhile. */
static bool may_speak(void) {
  return record.id == 0 ||
         recorder_queued() < (record.digits == 2 ? LINE_BELOW_RAW : LINE_BELOW_SUMS);
}

void jig_between_lines(void) {
  while (!may_speak()) {
    stream();
  }
}

/* ---- halts ---- */

void jig_rest(void) {
  jig_clipping_gather();
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

/* These look at one reason to speak each, and say at most one line (a halt with its record: two short
 * ones); true when something was said. */

static bool watch_silence(uint32_t now) {
  if (!running() || now - last_request < JIG_TICKS(JIG_SILENCE_MS)) {
    return false;
  }
  jig_halt(TEXT("silence"));
  return true;
}

/* ---- clipping ---- */

static void add_seen(const struct tick_clipping *seen) {
  quarter[0].frames = (uint16_t)(quarter[0].frames + seen->frames);
  for (uint8_t channel = 0; channel < BOARD_CHANNELS; channel++) {
    quarter[0].clipped[channel] = (uint16_t)(quarter[0].clipped[channel] + seen->clipped[channel]);
  }
}

void jig_clipping_gather(void) {
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

void jig_before_start(void) {
  halt_shown = false;
  if (!running()) {
    jig_clipping_gather();
    memset(quarter, 0, sizeof quarter);
    memset(untold, 0, sizeof untold);
    quarter_from = tick_read();
  }
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

static bool watch_clipping(uint32_t now) {
  if (now - quarter_from < JIG_TICKS(250)) {
    return false;
  }
  jig_clipping_gather();
  if (tell_clipping()) {
    return true; /* the rest in the next turn */
  }
  quarter_from = now;
  quarters_quiet = (uint8_t)(quarters_quiet > 0 ? quarters_quiet - 1U : 0U);
  bool whole = quarter[1].frames != 0; /* else the half second is not over yet */
  bool halt = whole && running() && clipping_lasts();
  quarter[1] = quarter[0];
  memset(&quarter[0], 0, sizeof quarter[0]);
  if (halt) {
    jig_halt(TEXT("clipping"));
  }
  return halt;
}

/* ---- foot switch, lamps, buzzer ---- */

bool jig_foot_down(void) { return foot_told; }

static bool watch_foot(uint32_t now) {
  bool down = board_foot_down();
  if (down != foot_seen) {
    foot_seen = down;
    foot_since = now;
  }
  if (foot_seen == foot_told || now - foot_since < JIG_TICKS(20)) {
    return false;
  }
  foot_told = foot_seen;
  out_text(TEXT("! foot"));
  out_field_text(TEXT("state"), foot_told ? TEXT("down") : TEXT("up"));
  out_end();
  return true;
}

void jig_lamp(uint8_t lamp, enum lamp_state state) {
  lamps_lit = (uint8_t)(state == LAMP_ON ? lamps_lit | lamp : lamps_lit & (uint8_t)~lamp);
  lamps_blinking =
      (uint8_t)(state == LAMP_BLINK ? lamps_blinking | lamp : lamps_blinking & (uint8_t)~lamp);
}

void jig_lamp_calm(void) { halt_shown = false; }

void jig_buzz(uint16_t milliseconds) {
  buzz_from = tick_read();
  buzz_ticks = JIG_TICKS(milliseconds) + 2U; /* rounded up, and the tick that has begun does not count */
  board_buzzer_write(true);
}

static void show(uint32_t now) {
  bool bright = (now & BLINK_TICK) != 0;
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
  out_empty_line();
  out_text(TEXT("! ready"));
  out_field_text(TEXT("cause"), cause_name());
  out_text(TEXT(" protocol=1 firmware=" JIG_FIRMWARE " board=" BOARD_NAME));
  out_end();
}

/* At most one of these speaks in a turn, so that samples are sent between any two lines. */
static void speak(uint32_t now) {
  if (watch_clipping(now) || watch_silence(now) || watch_foot(now)) {
    return;
  }
  if (heard != REQUEST_NONE) {
    answer();
  }
}

void jig_turn(void) {
  jig_wait();
  uint32_t now = tick_read();
  if ((uint8_t)now != tick_fed) {
    tick_fed = (uint8_t)now;
    board_alive();
  }
  show(now);
  if (may_speak()) {
    speak(now);
  }
  stream();
}
