/* Foot switch, lamps and buzzer. */
#include <string.h>

#include "check.h"
#include "talk.h"

static void expect(const char *line, uint32_t milliseconds) {
  const char *said = talk_line(milliseconds);
  CHECK(said != NULL && strcmp(said, line) == 0, "\"%s\" due, came \"%s\"", line, said == NULL ? "nothing" : said);
}

static void a_contact_that_bounces_is_told_once_when_it_has_stood(void) {
  talk_begin();
  for (int i = 0; i < 15; i++) { /* bounces for 15 ms */
    desk.contact = i % 2 == 0;
    desk_run(DESK_MS(1));
  }
  desk.contact = true;
  uint64_t from = desk.now;
  expect("! foot state=down", 100);
  uint64_t took = desk.now - from;
  CHECK(took >= DESK_MS(19) && took <= DESK_MS(24), "after %llu us", (unsigned long long)(took / 16));
  CHECK(strstr(talk_ask("1 status"), " foot=down ") != NULL, "status says up");
  CHECK(talk_line(200) == NULL, "told twice");
  desk.contact = false;
  expect("! foot state=up", 100);
}

static void a_touch_shorter_than_20_ms_is_not_told(void) {
  talk_begin();
  for (int i = 0; i < 20; i++) {
    desk.contact = true;
    desk_run(DESK_MS(18));
    desk.contact = false;
    desk_run(DESK_MS(5));
  }
  CHECK(talk_line(100) == NULL, "told");
}

static void the_foot_switch_is_heard_beside_a_raw_record(void) {
  talk_begin();
  talk_say("1 record channels=2 frames=100000 skip=0 decimate=1");
  bool down = false;
  uint64_t pressed = 0;
  for (int i = 0; i < 200 && !down; i++) {
    const char *line = talk_line(100);
    if (i == 50) {
      desk.contact = true;
      pressed = desk.now;
    }
    down = line != NULL && strcmp(line, "! foot state=down") == 0;
  }
  CHECK(down && desk.now - pressed < DESK_MS(40), "not told in time");
}

static void lamps_do_as_they_are_told(void) {
  talk_begin();
  talk_ask("1 lamp name=pass state=on");
  talk_ask("2 lamp name=busy state=on");
  desk_run(DESK_MS(1));
  CHECK(desk.lamps == (LAMP_PASS | LAMP_BUSY), "lamps %u", desk.lamps);
  talk_ask("3 lamp name=pass state=off");
  talk_ask("4 lamp name=fail state=blink");
  int lit = 0;
  for (int i = 0; i < 100; i++) {
    desk_run(DESK_MS(10));
    CHECK((desk.lamps & (LAMP_PASS | LAMP_BUSY)) == LAMP_BUSY, "lamps %u", desk.lamps);
    lit += (desk.lamps & LAMP_FAIL) != 0;
  }
  CHECK(lit > 40 && lit < 60, "lit for %d of 100 looks", lit);
}

static void the_buzzer_sounds_for_as_long_as_asked(void) {
  static const unsigned times[] = {1, 30, 2000};
  for (int i = 0; i < 3; i++) {
    talk_begin();
    talk_say("1 buzz milliseconds=%u", times[i]);
    while (!desk.buzzer) {
      desk_run(100);
    }
    while (desk.buzzer) {
      desk_run(100);
    }
    double took = (double)desk.buzzed / (double)DESK_MS(1);
    CHECK(took >= times[i] && took < times[i] + 1.0, "%u ms took %.2f", times[i], took);
  }
}

const struct test panel_tests[] = {
    {"a contact that bounces is told once, when it has stood for 20 ms",
     a_contact_that_bounces_is_told_once_when_it_has_stood},
    {"a touch shorter than 20 ms is not told", a_touch_shorter_than_20_ms_is_not_told},
    {"the foot switch is heard beside a raw record", the_foot_switch_is_heard_beside_a_raw_record},
    {"lamps do as they are told", lamps_do_as_they_are_told},
    {"the buzzer sounds for as long as asked", the_buzzer_sounds_for_as_long_as_asked},
    {NULL, NULL}};
