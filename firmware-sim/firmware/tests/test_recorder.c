/* Records against what the specification says of instants, skips and sums. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "recorder.h"
#include "talk.h"

/* A code that tells its channel and tick. */
static uint16_t hashed(uint8_t channel, uint32_t tick) {
  uint32_t mixed = (tick * 4U + channel) * 2654435761U;
  return (uint16_t)(mixed >> 22);
}

struct shape {
  int channels;
  int frames;
  int skip;
  int decimate;
};

static uint32_t values[100000];
static int value_count;
static int next_sequence;
static int blocks_lost;
static int64_t record_id;
static int digits;

static void take_block(const char *line) {
  unsigned id;
  unsigned sequence;
  char data[140];
  if (sscanf(line, ": %2X %4X %139s", &id, &sequence, data) != 3) {
    return;
  }
  blocks_lost += id != (unsigned)record_id || sequence != (unsigned)next_sequence;
  next_sequence++;
  for (size_t i = 0; data[i] != '\0'; i += (size_t)digits) {
    uint32_t value = 0;
    for (int d = 0; d < digits; d++) {
      value = value * 64 + (uint32_t)talk_digit64(data[i + (size_t)d]);
    }
    values[value_count++] = value;
  }
}

/* Reads a record to its end; gives "! recorded". */
static const char *collect(uint32_t milliseconds) {
  uint64_t until = desk.now + DESK_MS(milliseconds);
  while (desk.now < until) {
    const char *line = talk_line(1500);
    if (line == NULL) {
      return "";
    }
    if (line[0] == ':') {
      take_block(line);
    } else if (talk_begins(line, "! recorded")) {
      return line;
    }
  }
  return "";
}

static void record_and_compare(struct shape s) {
  talk_begin();
  desk.convert = hashed;
  desk_run(DESK_MS(1) * (unsigned)(s.frames % 7));
  talk_say("5 record channels=%d frames=%d skip=%d decimate=%d", s.channels, s.frames, s.skip, s.decimate);
  const char *reply = talk_line(100);
  if (reply == NULL || !talk_begins(reply, "5 ok")) {
    check_fail(__FILE__, __LINE__, "record: %s", reply == NULL ? "nothing" : reply);
    return;
  }
  int64_t first = talk_number(reply, "first_tick");
  int64_t interval = talk_number(reply, "interval_ticks");
  record_id = talk_number(reply, "record");
  digits = (int)talk_number(reply, "digits");
  CHECK(interval == s.channels * s.decimate, "interval_ticks=%ld", (long)interval);
  CHECK(digits == (s.decimate == 1 ? 2 : 3), "digits=%d", digits);
  value_count = next_sequence = blocks_lost = 0;
  const char *end = collect(20000);
  CHECK(strstr(end, " complete=yes") != NULL, "end: %s", end);
  CHECK(value_count == s.frames * s.channels, "%d values", value_count);
  CHECK(blocks_lost == 0 && talk_number(end, "blocks") == next_sequence, "blocks: %s", end);
  int low[3] = {1023, 1023, 1023};
  int high[3] = {0, 0, 0};
  for (int i = 0; i < value_count; i++) {
    uint8_t channel = (uint8_t)(i % s.channels);
    uint32_t sum = 0;
    for (int j = 0; j < s.decimate; j++) {
      int64_t tick = first + i / s.channels * interval + j * s.channels + channel;
      int code = hashed(channel, (uint32_t)tick);
      sum += (uint32_t)code;
      low[channel] = code < low[channel] ? code : low[channel];
      high[channel] = code > high[channel] ? code : high[channel];
    }
    CHECK(values[i] == sum, "value %d of channel %d is %u, not %u", i / s.channels, channel, values[i], sum);
  }
  char seen[100];
  snprintf(seen, sizeof seen, s.channels == 2 ? "low=%d,%d high=%d,%d" : "low=%d,%d,%d high=%d,%d,%d", low[0],
           low[1], s.channels == 2 ? high[0] : low[2], s.channels == 2 ? high[1] : high[0], high[1], high[2]);
  CHECK(strstr(end, seen) != NULL, "%s, not %s", end, seen);
}

static void every_value_is_the_code_of_its_instant(void) {
  const uint32_t seed = 99;
  talk_seed(seed);
  int runs = 0;
  for (int channels = 2; channels <= 3; channels++) {
    for (int decimate = 1; decimate <= BOARD_DECIMATE_MAX; decimate *= 2) {
      int most = 4000 / (channels * decimate) + 1;
      struct shape shape = {channels, (int)(talk_random() % (uint32_t)most) + 1, (int)(talk_random() % 9), decimate};
      record_and_compare(shape);
      CHECK(!check_failed(), "seed %u: channels=%d frames=%d skip=%d decimate=%d", seed, shape.channels,
            shape.frames, shape.skip, shape.decimate);
      runs++;
    }
  }
  check_note("%d records, seed %u", runs, seed);
}

static void blocks_of_every_length_end_a_record(void) {
  for (int frames = 1; frames <= 66; frames++) {
    record_and_compare((struct shape){2, frames, frames % 3, 1});
  }
}

static void a_skipped_record_waits_for_its_first_frame(void) {
  record_and_compare((struct shape){2, 10, 10000, 1});
}

static void the_largest_sum_is_kept(void) {
  talk_begin();
  desk.convert = NULL;
  struct recorder_order order = {2, (decimation)BOARD_DECIMATE_MAX, 1, 0};
  recorder_begin(&order);
  for (int frame = 0; frame < BOARD_DECIMATE_MAX; frame++) {
    recorder_take(0, BOARD_CODES - 1);
    recorder_take(1, 0);
  }
  CHECK(recorder_queued() == 2, "%d queued", recorder_queued());
  CHECK(recorder_next() == (sample)(BOARD_DECIMATE_MAX * (BOARD_CODES - 1)), "the sum is cut");
  CHECK(recorder_next() == 0, "the other channel is touched");
}

static void each_record_has_the_next_number_and_255_is_followed_by_1(void) {
  talk_begin();
  for (int i = 1; i <= 257; i++) {
    talk_say("1 record channels=2 frames=1 skip=0 decimate=1");
    const char *reply = talk_line(100);
    int64_t id = reply == NULL ? -1 : talk_number(reply, "record");
    CHECK(id == (i - 1) % 255 + 1, "record %d is called %ld", i, (long)id);
    record_id = id;
    digits = 2;
    value_count = next_sequence = 0;
    CHECK(strstr(collect(100), "complete=yes") != NULL, "record %d does not end", i);
  }
}

static void a_record_stopped_before_its_first_block_shows_no_codes(void) {
  talk_begin();
  talk_say("1 record channels=2 frames=32 skip=5000 decimate=1");
  talk_line(100);
  talk_say("2 stop");
  const char *end = talk_line(100);
  CHECK(end != NULL && strcmp(end, "! recorded record=1 frames=0 blocks=0 complete=no") == 0, "%s",
        end == NULL ? "nothing" : end);
}

const struct test recorder_tests[] = {
    {"every value is the sum of the codes of its instants", every_value_is_the_code_of_its_instant},
    {"blocks of every length end a record", blocks_of_every_length_end_a_record},
    {"a skipped record waits for its first frame", a_skipped_record_waits_for_its_first_frame},
    {"the largest sum is kept", the_largest_sum_is_kept},
    {"each record has the next number and 255 is followed by 1",
     each_record_has_the_next_number_and_255_is_followed_by_1},
    {"a record stopped before its first block shows no codes",
     a_record_stopped_before_its_first_block_shows_no_codes},
    {NULL, NULL}};
