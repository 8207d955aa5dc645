#include "panel.h"

#include "board.h"
#include "jig.h"
#include "out.h"
#include "tick.h"

/* On while this bit of the tick is set: 0.26 s of each 0.52 s, where a tick is 64 us. */
#define BLINK_TICK 4096U

static uint8_t lamps_lit;
static uint8_t lamps_blinking;
static bool halt_shown;
static uint32_t buzz_from;
static uint32_t buzz_ticks;

static bool foot_told;
static bool foot_seen;
static uint32_t foot_since;

bool panel_foot_down(void) { return foot_told; }

bool panel_watch_foot(uint32_t now) {
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

void panel_lamp(uint8_t lamp, enum lamp_state state) {
  lamps_lit = (uint8_t)(state == LAMP_ON ? lamps_lit | lamp : lamps_lit & (uint8_t)~lamp);
  lamps_blinking =
      (uint8_t)(state == LAMP_BLINK ? lamps_blinking | lamp : lamps_blinking & (uint8_t)~lamp);
}

void panel_calm(void) { halt_shown = false; }

void panel_show_halt(void) { halt_shown = true; }

void panel_buzz(uint16_t milliseconds) {
  buzz_from = tick_read();
  buzz_ticks = JIG_TICKS(milliseconds) + 2U; /* rounded up, and the tick that has begun does not count */
  board_buzzer_write(true);
}

void panel_show(uint32_t now) {
  bool bright = (now & BLINK_TICK) != 0;
  uint8_t blinking = (uint8_t)(lamps_blinking | (halt_shown ? LAMP_BUSY : 0));
  board_lamps_write((uint8_t)((lamps_lit & (uint8_t)~blinking) | (bright ? blinking : 0)));
  if (buzz_ticks != 0 && now - buzz_from >= buzz_ticks) {
    buzz_ticks = 0;
    board_buzzer_write(false);
  }
}
