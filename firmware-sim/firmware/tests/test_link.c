/* The queue of samples under the heaviest talk. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "jig.h"
#include "recorder.h"
#include "talk.h"

static int deepest;

static uint16_t watch_queue(uint8_t channel, uint32_t tick) {
  (void)channel;
  int queued = recorder_queued();
  deepest = queued > deepest ? queued : deepest;
  return (uint16_t)(500 + tick % 7);
}

static int blocks_seen;
static int overruns_seen;

static void count_aside(const char *line) {
  blocks_seen += line[0] == ':';
  overruns_seen += talk_begins(line, "! overrun");
}

static void begin_record(const char *how) {
  talk_begin();
  desk.convert = watch_queue;
  deepest = blocks_seen = overruns_seen = 0;
  talk_aside = count_aside;
  const char *reply = talk_ask("1 record %s", how);
  CHECK(talk_begins(reply, "1 ok"), "%s", reply);
}

/* The longest reply: every counter at its end, which only a test can bring about. */
static void fill_counters(void) {
  jig_counters = (struct jig_counters){JIG_COUNT_MAX, JIG_COUNT_MAX, JIG_COUNT_MAX, JIG_COUNT_MAX, JIG_COUNT_MAX};
}

static void talk_much(const char *how) {
  begin_record(how);
  fill_counters();
  size_t longest = 0;
  for (int i = 0; i < 300; i++) {
    const char *reply = talk_ask("9999 %s", i % 10 == 9 ? "identify" : "status");
    CHECK(talk_begins(reply, "9999 ok"), "%s", reply);
    longest = strlen(reply) > longest ? strlen(reply) : longest;
    desk.contact = i % 40 < 20;
  }
  CHECK(overruns_seen == 0, "%d overruns while talking, at most %d samples waiting", overruns_seen, deepest);
  CHECK(blocks_seen > 100 || strstr(how, "decimate=1 ") == NULL, "only %d blocks", blocks_seen);
  CHECK(deepest < RECORDER_QUEUE, "the queue was full");
}

static void talk_never_costs_a_sample(void) {
  int worst = 0;
  static const char *const shapes[] = {
      "channels=2 frames=1000000 skip=0 decimate=1", "channels=3 frames=1000000 skip=0 decimate=1",
      "channels=2 frames=1000000 skip=0 decimate=2", "channels=3 frames=1000000 skip=0 decimate=2",
      "channels=2 frames=1000000 skip=0 decimate=256"};
  for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
    talk_much(shapes[i]);
    worst = deepest > worst ? deepest : worst;
  }
  check_note("at most %d of %d samples waiting", worst, RECORDER_QUEUE - 1);
}

static void replies_begin_within_50_ms_beside_a_record(void) {
  uint64_t slowest = 0;
  for (int decimate = 1; decimate <= 256; decimate *= 4) {
    char how[80];
    snprintf(how, sizeof how, "channels=2 frames=100000 skip=0 decimate=%d", decimate);
    begin_record(how);
    for (int i = 0; i < 60; i++) {
      while (desk_line() != NULL) {
      }
      talk_say("7 status");
      while (!desk_heard_all()) {
        desk_run(500);
      }
      uint64_t from = desk.now;
      int before = 0; /* whole lines that were said by then */
      for (size_t c = 0; c < desk.said_length; c++) {
        before += desk.said[c] == '\n';
      }
      const char *line = talk_line(1000);
      for (int lines = 1 - before; line != NULL && line[0] == ':'; lines++) {
        CHECK(lines < 2, "behind more than the block under way");
        line = talk_line(1000);
      }
      uint64_t took = desk.now - from;
      slowest = took > slowest ? took : slowest;
      desk_run(DESK_MS(3) * (unsigned)(i % 5));
    }
  }
  CHECK(slowest <= DESK_MS(50), "%llu ms", (unsigned long long)(slowest / DESK_MS(1)));
  check_note("at most %.1f ms to its end", (double)slowest / (double)DESK_MS(1));
}

static void a_link_that_falls_behind_is_told_and_what_came_is_gapless(void) {
  talk_begin();
  desk.link_baud = 300000; /* the core believes in 500 000 */
  talk_say("1 record channels=2 frames=20000 skip=0 decimate=1");
  int blocks = 0;
  bool overrun = false;
  const char *line = talk_line(200);
  CHECK(line != NULL && talk_begins(line, "1 ok"), "%s", line);
  while ((line = talk_line(500)) != NULL && !talk_begins(line, "! recorded")) {
    unsigned sequence = 0;
    if (sscanf(line, ": 01 %4X", &sequence) == 1) {
      CHECK(!overrun, "a block after the overrun was told");
      CHECK(sequence == (unsigned)blocks, "block %u where %d was due", sequence, blocks);
      blocks++;
    } else {
      overrun = overrun || strcmp(line, "! overrun record=1") == 0;
    }
  }
  CHECK(overrun, "no overrun told");
  CHECK(line != NULL && strstr(line, " complete=no ") != NULL, "%s", line == NULL ? "nothing" : line);
  CHECK(line != NULL && talk_number(line, "frames") == blocks * 32, "%s", line == NULL ? "nothing" : line);
  const char *status = talk_ask("2 status");
  CHECK(talk_number(status, "overruns") == 1 && talk_number(status, "recording") == 0, "%s", status);
  check_note("after %d blocks", blocks);
}

static void a_flood_of_bytes_is_refused_and_the_jig_goes_on(void) {
  talk_begin();
  char flood[4000];
  memset(flood, 'x', sizeof flood);
  for (size_t i = 10; i < sizeof flood; i += 11) {
    flood[i] = '\n';
  }
  desk_hear(flood, sizeof flood);
  while (!desk_heard_all()) {
    desk_run(DESK_MS(1));
  }
  while (talk_line(50) != NULL) {
  }
  desk_hear("\n", 1);
  while (talk_line(50) != NULL) {
  }
  const char *reply = talk_ask("3 status");
  int64_t turned_away = talk_number(reply, "refused") + talk_number(reply, "damaged");
  CHECK(talk_begins(reply, "3 ok") && turned_away > 10, "%s", reply);
}

static void bytes_lost_in_a_line_refuse_that_line(void) {
  talk_begin();
  /* While a long answer goes out, more comes than the ring holds: the line that loses is refused. */
  talk_say("1 identify");
  talk_say("2 stop");
  talk_say("3 play wave=tone step=9345849 level=300 dc=0");
  desk_run(DESK_MS(60));
  desk_hear("\n", 1); /* in case the end of that line was lost as well */
  int refused = 0;
  int obeyed = 0;
  const char *line;
  while ((line = talk_line(100)) != NULL) {
    refused += strstr(line, " no 12 line-not-text") != NULL;
    obeyed += talk_begins(line, "1 ok") || talk_begins(line, "2 ok");
    CHECK(!talk_begins(line, "3 ok"), "a line was obeyed that had lost bytes");
  }
  CHECK(refused == 1 && obeyed == 2, "%d refused, %d obeyed", refused, obeyed);
}

const struct test link_tests[] = {
    {"talk never costs a sample", talk_never_costs_a_sample},
    {"replies begin within 50 ms beside a record", replies_begin_within_50_ms_beside_a_record},
    {"a link that falls behind is told, and what came is gapless",
     a_link_that_falls_behind_is_told_and_what_came_is_gapless},
    {"a flood of bytes is refused and the jig goes on", a_flood_of_bytes_is_refused_and_the_jig_goes_on},
    {"bytes lost in a line refuse that line", bytes_lost_in_a_line_refuse_that_line},
    {NULL, NULL}};
