/* When the jig halts by itself: section 7 of the specification. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "jig.h"
#include "talk.h"

static int clip_of_8; /* so many of 8 frames of channel clip_channel stand at an end */
static uint8_t clip_channel;
static int64_t clip_from;
static int64_t clip_to;

static uint16_t ends_part(uint8_t channel, uint32_t tick) {
  bool now = tick >= clip_from && tick < clip_to;
  if (now && channel == clip_channel && (int)(tick / 2 % 8) < clip_of_8) {
    return tick / 16 % 2 == 0 ? 0 : BOARD_CODES - 1;
  }
  return 512;
}

static void expect(const char *line, uint32_t milliseconds) {
  const char *said = talk_line(milliseconds);
  CHECK(said != NULL && strcmp(said, line) == 0, "\"%s\" due, came \"%s\"", line, said == NULL ? "nothing" : said);
}

static double ms_since(uint64_t from) { return (double)(desk.now - from) / (double)DESK_MS(1); }

static void silence_halts_a_wave_after_two_seconds(void) {
  talk_begin();
  talk_ask("1 play wave=dc dc=100");
  uint64_t from = desk.now;
  expect("! halted cause=silence", 3000);
  double took = ms_since(from);
  CHECK(took > 1990 && took < 2020, "after %.1f ms", took);
  desk_run(3000);
  CHECK(desk.level == 0, "the drive stands at %d", desk.level);
  const char *status = talk_ask("2 status");
  CHECK(strstr(status, " wave=none ") != NULL && talk_number(status, "halts") == 1, "%s", status);
  check_note("after %.1f ms", took);
}

static void a_request_in_time_keeps_a_wave(void) {
  talk_begin();
  talk_ask("1 play wave=dc dc=100");
  for (int i = 0; i < 5; i++) {
    desk_run(DESK_MS(1900));
    talk_ask("2 status");
  }
  CHECK(desk.level == 100, "the drive stands at %d", desk.level);
}

static void a_refusal_halts_wave_and_record_in_the_order_told(void) {
  talk_begin();
  talk_ask("1 play wave=dc dc=100");
  talk_ask("2 record channels=2 frames=5000 skip=4000 decimate=1");
  talk_say("3 hush");
  expect("! recorded record=1 frames=0 blocks=0 complete=no", 100);
  expect("! halted cause=refused", 100);
  expect("3 no 20 verb-unknown", 100);
  desk_run(3000);
  CHECK(desk.level == 0, "the drive stands at %d", desk.level);
}

static void a_damaged_line_halts_a_wave(void) {
  talk_begin();
  talk_ask("1 play wave=dc dc=100");
  desk_hear("1 stop ~0000\n", 13);
  expect("! halted cause=refused", 100);
  expect("0 no 10 line-damaged", 100);
}

static void a_damaged_line_after_an_unknown_field_names_no_field(void) {
  talk_begin();
  talk_ask("1 stop now=1");
  desk_hear("2 stop ~0000\n", 13);
  expect("0 no 10 line-damaged", 100);
}

static void begin_clipping(uint8_t channel, int of_8, int64_t from, int64_t to) {
  talk_begin();
  desk.convert = ends_part;
  clip_channel = channel;
  clip_of_8 = of_8;
  clip_from = from;
  clip_to = to;
}

static void clipping_that_lasts_halts(void) {
  for (uint8_t channel = 0; channel < 2; channel++) {
    begin_clipping(channel, 5, 0, INT64_MAX);
    talk_ask("1 play wave=dc dc=100");
    uint64_t from = desk.now;
    const char *told = talk_line(400);
    CHECK(told != NULL && talk_begins(told, "! clipping channel=") && talk_number(told, "channel") == channel,
          "%s", told == NULL ? "nothing" : told);
    expect("! halted cause=clipping", 1000);
    double took = ms_since(from);
    CHECK(took >= 499 && took <= 520, "channel %u after %.1f ms", channel, took);
    const char *status = talk_ask("2 status");
    int64_t clipped = talk_number(status, "clipped");
    CHECK(clipped > 2300 && clipped < 2600, "%s", status); /* 5/8 of 3906 frames */
    check_note("after %.1f ms", took);
  }
}

static void clipping_halts_a_record_without_a_wave_and_tells_no_frames(void) {
  begin_clipping(1, 8, 0, INT64_MAX);
  talk_ask("1 record channels=2 frames=60000 skip=60000 decimate=1");
  expect("! recorded record=1 frames=0 blocks=0 complete=no", 1000);
  expect("! halted cause=clipping", 100);
  const char *status = talk_ask("2 status");
  CHECK(talk_number(status, "clipped") == 0, "%s", status);
}

static void clipping_of_less_than_half_is_told_once_a_second_and_does_not_halt(void) {
  begin_clipping(0, 3, 0, INT64_MAX);
  talk_ask("1 play wave=dc dc=100");
  int told = 0;
  int64_t frames = 0;
  uint64_t from = desk.now;
  while (ms_since(from) < 5000) {
    const char *line = talk_line(300);
    if (line != NULL) {
      CHECK(talk_begins(line, "! clipping channel=0 "), "%s", line);
      frames += talk_number(line, "frames");
      told++;
    }
    talk_say("1 status");
    do {
      line = talk_line(300);
      if (line != NULL && talk_begins(line, "! clipping")) {
        frames += talk_number(line, "frames");
        told++;
      }
    } while (line != NULL && line[0] == '!');
  }
  CHECK(told >= 4 && told <= 6, "told %d times in 5 s", told);
  int64_t counted = talk_number(talk_ask("2 status"), "clipped");
  CHECK(frames <= counted && frames > counted * 7 / 10, "%ld told, %ld counted", (long)frames, (long)counted);
}

static void brief_clipping_is_counted_to_the_frame_and_does_not_halt(void) {
  begin_clipping(1, 8, 2000, 2000 + 1600);
  talk_ask("1 play wave=dc dc=100");
  while (desk.now / BOARD_TICK_CYCLES < 4200) {
    desk_run(DESK_MS(1));
  }
  talk_aside = NULL;
  const char *reply = talk_ask("2 stop");
  CHECK(talk_begins(reply, "2 ok"), "%s", reply);
  CHECK(talk_number(talk_ask("3 status"), "clipped") == 800, "%s", talk_ask("3 status"));
}

static void clipping_before_a_start_does_not_count(void) {
  begin_clipping(0, 8, 0, 16000);
  while (desk.now / BOARD_TICK_CYCLES < 15990) {
    desk_run(DESK_MS(1) / 4);
  }
  talk_ask("1 play wave=dc dc=1");
  desk_run(DESK_MS(1500));
  const char *status = talk_ask("2 status");
  CHECK(strstr(status, " wave=dc ") != NULL && talk_number(status, "clipped") < 20, "%s", status);
}

static void the_busy_lamp_blinks_after_a_halt_until_the_next_start(void) {
  talk_begin();
  talk_ask("1 play wave=dc dc=100");
  talk_ask("2 hush");
  int lit = 0;
  for (int i = 0; i < 100; i++) {
    desk_run(DESK_MS(10));
    lit += (desk.lamps & LAMP_BUSY) != 0;
  }
  CHECK(lit > 35 && lit < 65, "lit for %d of 100 looks", lit);
  talk_ask("3 play wave=dc dc=1");
  for (int i = 0; i < 50; i++) {
    desk_run(DESK_MS(10));
    CHECK(desk.lamps == 0, "lit after the start");
  }
}

static void a_restart_says_why_and_rests(void) {
  static const char *const causes[] = {"power", "reset", "brown-out", "watchdog"};
  for (int cause = 0; cause < 4; cause++) {
    talk_begin();
    talk_ask("1 limit peak=400");
    talk_ask("2 play wave=dc dc=100");
    desk_restart((enum board_cause)cause);
    char ready[100];
    snprintf(ready, sizeof ready, "! ready cause=%s protocol=1 firmware=" JIG_FIRMWARE " board=desk", causes[cause]);
    expect(ready, 100);
    CHECK(desk.level == 0, "the drive stands at %d", desk.level);
    CHECK(strstr(talk_ask("1 status"), " wave=none ") != NULL, "a wave plays after a restart");
    CHECK(talk_begins(talk_ask("2 play wave=dc dc=500"), "2 ok"), "the limit outlived the restart");
  }
}

static void the_watchdog_is_fed_while_ticks_move_and_not_when_they_stand(void) {
  talk_begin();
  uint32_t before = desk.fed;
  desk_run(DESK_MS(100));
  CHECK(desk.fed - before > 1000, "fed %u times", desk.fed - before);
  desk.ticks_stand = true;
  before = desk.fed;
  desk_run(DESK_MS(1000));
  CHECK(desk.fed - before <= 1, "fed %u times with no tick", desk.fed - before);
}

const struct test halt_tests[] = {
    {"silence halts a wave after two seconds", silence_halts_a_wave_after_two_seconds},
    {"a request in time keeps a wave", a_request_in_time_keeps_a_wave},
    {"a refusal halts wave and record, in the order told", a_refusal_halts_wave_and_record_in_the_order_told},
    {"a damaged line halts a wave", a_damaged_line_halts_a_wave},
    {"a damaged line after an unknown field names no field", a_damaged_line_after_an_unknown_field_names_no_field},
    {"clipping that lasts halts", clipping_that_lasts_halts},
    {"clipping halts a record without a wave", clipping_halts_a_record_without_a_wave_and_tells_no_frames},
    {"clipping of less than half the frames is told once a second and does not halt",
     clipping_of_less_than_half_is_told_once_a_second_and_does_not_halt},
    {"brief clipping is counted to the frame", brief_clipping_is_counted_to_the_frame_and_does_not_halt},
    {"clipping before a start does not count", clipping_before_a_start_does_not_count},
    {"the busy lamp blinks after a halt until the next start",
     the_busy_lamp_blinks_after_a_halt_until_the_next_start},
    {"a restart says why and rests", a_restart_says_why_and_rests},
    {"the watchdog is fed while ticks move and not when they stand",
     the_watchdog_is_fed_while_ticks_move_and_not_when_they_stand},
    {NULL, NULL}};
