/*
 * The core on a board without foot switch, lamps, buzzer, memory and third channel, with other numbers everywhere
 * (board/desk/board_config.h, DESK_BARE): it must say so and hold the dialogues all the same. Arguments: the folder of vectors.
 */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "jig.h"
#include "recorder.h"
#include "talk.h"

const char *vectors_folder;

static char told[2000];

static void gather(const char *line) {
  strncat(told, line, sizeof told - strlen(told) - 2);
  strcat(told, "\n");
}

static void it_says_what_it_lacks(void) {
  talk_begin();
  told[0] = '\0';
  talk_aside = gather;
  const char *reply = talk_ask("7 identify");
  CHECK(strcmp(reply, "7 ok lines=10") == 0, "%s", reply);
  CHECK(strstr(told, "7 + fitted foot=0 lamps=0 buzzer=0\n") != NULL, "%s", told);
  CHECK(strstr(told, "7 + channel number=1 ") != NULL && strstr(told, "channel number=2") == NULL, "%s", told);
  CHECK(strstr(told, " channels_max=2 ") != NULL, "%s", told);
  CHECK(strstr(told, " serial=none calibration=none\n") != NULL, "%s", told);
}

static void expect(const char *request, const char *reply) {
  const char *said = talk_ask("%s", request);
  CHECK(strcmp(said, reply) == 0, "to \"%s\" \"%s\" is due, came \"%s\"", request, reply, said);
}

static void what_it_lacks_is_refused(void) {
  talk_begin();
  expect("1 lamp name=pass state=on", "1 no 40 not-fitted");
  expect("2 buzz milliseconds=10", "2 no 40 not-fitted");
  expect("3 store serial=A-1", "3 no 41 store-failed");
  expect("4 store calibration=none", "4 ok"); /* as it is anyway */
  expect("5 record channels=3 frames=1 skip=0 decimate=1",
         "5 no 25 value-out-of-range field=channels given=3 low=2 high=2");
  desk.contact = true;
  desk_run(DESK_MS(100));
  CHECK(strstr(talk_ask("6 status"), " foot=up ") != NULL, "a contact that is not there is down");
}

/* By hand, specification sections 5 and 8: 100 000 mHz x 2^32 x 1600 / (8 MHz x 1000) = 85899345.92. One raw pair is
 * 1600 / 8 MHz x 2 = 400 us: 2500 x 145 / 32 = 11328.1 characters a second, against 115200 / 10 x 4/5 = 9216. */
static void its_own_clock_and_link_count(void) {
  talk_begin();
  expect("1 play wave=tone millihertz=100000 level=128", "1 no 25 value-out-of-range field=level given=128 low=0 high=127");
  const char *reply = talk_ask("2 play wave=tone millihertz=100000 level=127");
  CHECK(talk_begins(reply, "2 ok step=85899346 tick="), "%s", reply);
  expect("3 stop", "3 ok");
  expect("4 record channels=2 frames=100 skip=0 decimate=1", "4 no 33 link-too-slow needs=11329 has=9216");
}

static int deepest;
static uint16_t highest(uint8_t channel, uint32_t tick) {
  (void)channel;
  (void)tick;
  int queued = recorder_queued();
  deepest = queued > deepest ? queued : deepest;
  return BOARD_CODES - 2;
}

static int blocks;
static char first_block[200];
static int overruns;
static void note_blocks(const char *line) {
  if (line[0] == ':' && blocks++ == 0) {
    snprintf(first_block, sizeof first_block, "%s", line);
  }
  overruns += talk_begins(line, "! overrun");
}

static void talk_beside_sums_costs_none(void) {
  talk_begin();
  desk.convert = highest;
  deepest = blocks = overruns = 0;
  talk_aside = note_blocks;
  CHECK(talk_begins(talk_ask("1 record channels=2 frames=200000 skip=0 decimate=2"), "1 ok "), "refused");
  jig_counters = (struct jig_counters){JIG_COUNT_MAX, JIG_COUNT_MAX, JIG_COUNT_MAX, JIG_COUNT_MAX, JIG_COUNT_MAX};
  for (int i = 0; i < 200; i++) {
    const char *reply = talk_ask("9999 %s", i % 10 == 9 ? "identify" : "status");
    CHECK(talk_begins(reply, "9999 ok"), "%s", reply);
  }
  CHECK(overruns == 0 && blocks > 20, "%d overruns, %d blocks", overruns, blocks);
  /* 2 x 4094 = 8188 = 1 x 4096 + 63 x 64 + 60: B, /, 8 */
  CHECK(talk_begins(first_block, ": 01 0000 B/8B/8B/8"), "%s", first_block);
  check_note("at most %d of %d samples waiting", deepest, RECORDER_QUEUE - 1);
}

static void it_holds_the_dialogues(void) { dialogue_tests[0].run(); }

int main(int count, char **words) {
  static const struct test tests[] = {
      {"a board with nothing fitted says so", it_says_what_it_lacks},
      {"what a board lacks is refused", what_it_lacks_is_refused},
      {"another board's clock and link count", its_own_clock_and_link_count},
      {"talk beside sums costs no sample on a slow link", talk_beside_sums_costs_none},
      {"a board with nothing fitted holds the dialogues of the vectors", it_holds_the_dialogues},
      {NULL, NULL}};
  if (count != 2) {
    fprintf(stderr, "usage: %s <folder of protocol vectors>\n", words[0]);
    return 2;
  }
  vectors_folder = words[1];
  return check_run(tests) == 0 ? 0 : 1;
}
