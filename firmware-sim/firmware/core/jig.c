#include "jig.h"

#include "board.h"
#include "clipping.h"
#include "command.h"
#include "out.h"
#include "panel.h"
#include "request.h"
#include "stream.h"
#include "tick.h"
#include "wave.h"

struct jig_counters jig_counters;

static struct request request;
static enum request_state heard; /* a line waits to be answered */
static uint32_t last_request;

static uint8_t tick_fed; /* the tick, modulo 256, at which the watchdog was last fed */

void jig_count(uint32_t *counter) {
  if (*counter != JIG_COUNT_MAX) {
    ++*counter;
  }
}

bool jig_runs(void) { return wave_now.kind != WAVE_NONE || stream_record() != 0; }

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

/* ---- halts ---- */

void jig_rest(void) {
  clipping_gather();
  wave_stop();
  stream_cease();
}

void jig_halt(flash_text cause) {
  if (!jig_runs()) {
    return;
  }
  jig_rest();
  jig_count(&jig_counters.halts);
  panel_show_halt();
  out_text(TEXT("! halted"));
  out_field_text(TEXT("cause"), cause);
  out_end();
}

void jig_before_start(void) {
  panel_calm();
  if (!jig_runs()) {
    clipping_forget();
  }
}

static bool watch_silence(uint32_t now) {
  if (!jig_runs() || now - last_request < JIG_TICKS(JIG_SILENCE_MS)) {
    return false;
  }
  jig_halt(TEXT("silence"));
  return true;
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

/*
 * Each looks at one reason to speak and says at most one line (a halt with its record: two short ones). At most one of
 * them speaks in a turn, so that samples are sent between any two lines.
 */
static void speak(uint32_t now) {
  if (clipping_watch(now) || watch_silence(now) || panel_watch_foot(now)) {
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
  panel_show(now);
  if (stream_leaves_room()) {
    speak(now);
  }
  stream_turn();
}
