#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "out.h"
#include "request.h"
#include "talk.h"
#include "vectors.h"

/* ---- requests ---- */

/* A request as the vectors write one: tag, checked or typed, verb, fields. */
static void describe(const struct request *request, char *into, size_t room) {
  int at = snprintf(into, room, "%u %s", request->tag, request->checked ? "checked" : "typed");
  const char *word = request->words;
  for (uint8_t i = 0; i < request->count; i++) {
    at += snprintf(into + at, room - (size_t)at, " %s", word);
    word = request_after(word);
  }
}

static void parse_valid(const struct vector *vector) {
  char bytes[1000];
  snprintf(bytes, sizeof bytes, "%s\\x0A", vector->given);
  size_t count = vectors_unescape(bytes);
  struct request request;
  enum request_state state = REQUEST_NONE;
  for (size_t i = 0; i < count; i++) {
    CHECK(state == REQUEST_NONE, "line %d: over before its end", vector->line);
    state = request_take((uint8_t)bytes[i], &request);
  }
  if (state != REQUEST_WHOLE) {
    check_fail(__FILE__, __LINE__, "line %d: not taken", vector->line);
    return;
  }
  CHECK(request_well_formed(&request), "line %d: malformed", vector->line);
  char described[400];
  describe(&request, described, sizeof described);
  CHECK(strcmp(described, vector->gives) == 0, "line %d: %s", vector->line, described);
}

static void valid_requests_are_read(void) {
  desk_begin();
  check_note("%d", vectors_each("requests-valid.txt", parse_valid));
}

static void hear(const struct vector *vector, uint64_t pause) {
  char bytes[1000];
  snprintf(bytes, sizeof bytes, "%s\\x0A", vector->given);
  size_t count = vectors_unescape(bytes);
  for (size_t i = 0; i < count; i++) {
    desk_hear(&bytes[i], 1);
    if (pause > 0) {
      desk_run(pause);
    }
  }
}

/* The first line that answers, checksum and all. */
static void answers(const struct vector *vector, bool accepted) {
  const char *reply = talk_line(300);
  while (reply != NULL && strstr(reply, " + ") != NULL) {
    reply = talk_line(300);
  }
  if (reply == NULL) {
    check_fail(__FILE__, __LINE__, "line %d: no answer", vector->line);
  } else if (accepted) {
    CHECK(strstr(reply, " ok") != NULL, "line %d: %s", vector->line, reply);
  } else {
    CHECK(strcmp(reply, vector->gives) == 0, "line %d: %s", vector->line, reply);
  }
}

static void obey_valid(const struct vector *vector) {
  talk_begin();
  hear(vector, 0);
  answers(vector, strstr(vector->gives, " crc=") == NULL);
}

static void whole_line(const struct vector *vector) {
  talk_begin();
  hear(vector, 0);
  answers(vector, false);
}

static void single_bytes(const struct vector *vector) {
  hear(vector, DESK_MS(1) / 4);
  answers(vector, false);
}

/* A valid one with a checksum of the table is refused for the table that is not loaded. */
static void obey_valid_or_table(const struct vector *vector) {
  if (strstr(vector->gives, " crc=") == NULL) {
    obey_valid(vector);
    return;
  }
  talk_begin();
  hear(vector, 0);
  const char *reply = talk_line(300);
  CHECK(reply != NULL && (strstr(reply, " ok") != NULL || strstr(reply, "no 32 table-differs") != NULL),
        "line %d: %s", vector->line, reply == NULL ? "nothing" : reply);
}

static void valid_requests_are_obeyed(void) {
  check_note("%d", vectors_each("requests-valid.txt", obey_valid_or_table));
}

static void invalid_requests_are_refused_byte_for_byte(void) {
  check_note("%d", vectors_each("requests-invalid.txt", whole_line));
}

static void invalid_requests_are_refused_in_one_stream_of_single_bytes(void) {
  talk_begin();
  check_note("%d", vectors_each("requests-invalid.txt", single_bytes));
}

/* ---- lines from the jig: the core's checksum ---- */

static bool seals(const struct vector *vector) {
  char bytes[1000];
  snprintf(bytes, sizeof bytes, "%s", vector->given);
  size_t count = vectors_unescape(bytes);
  if (count < 6 || memcmp(bytes + count - 6, " ~", 2) != 0) {
    return false;
  }
  desk.said_length = 0;
  for (size_t i = 0; i < count - 6; i++) {
    out_char(bytes[i]);
  }
  out_end();
  desk_run(DESK_MS(1));
  return desk.said_length == count + 1 && memcmp(desk.said, bytes, count) == 0;
}

static void sealed_right(const struct vector *vector) {
  size_t count = strlen(vector->given);
  bool lower = false; /* a host takes a checksum in lower case, and a CR; a jig sends neither */
  for (size_t i = count < 4 ? 0 : count - 4; i < count; i++) {
    lower = lower || (vector->given[i] >= 'a' && vector->given[i] <= 'f');
  }
  if (lower || strstr(vector->given, "\\x0D") != NULL) {
    return;
  }
  CHECK(seals(vector), "line %d", vector->line);
}

static void sealed_wrong(const struct vector *vector) {
  if (strcmp(vector->gives, "line-damaged") == 0) {
    CHECK(!seals(vector), "line %d has the core's own checksum", vector->line);
  }
}

static void lines_get_the_checksum_of_the_vectors(void) {
  talk_begin();
  check_note("%d", vectors_each("lines-from-jig-valid.txt", sealed_right));
}

static void damaged_lines_have_not_the_checksum_that_the_core_gives(void) {
  talk_begin();
  vectors_each("lines-from-jig-invalid.txt", sealed_wrong);
}

/* ---- samples ---- */

static uint32_t values[200];
static int value_count;
static int channels;
static int decimate;
static uint32_t first_tick;

/* Codes whose sum over the frames of a value is that value. */
static uint16_t spread(uint8_t channel, uint32_t tick) {
  uint32_t frame = (tick - first_tick) / (uint32_t)channels;
  uint32_t index = frame / (uint32_t)decimate * (uint32_t)channels + channel;
  if (tick < first_tick || index >= (uint32_t)value_count) {
    return BOARD_CODES / 2;
  }
  uint32_t d = (uint32_t)decimate;
  return (uint16_t)(values[index] / d + (frame % d < values[index] % d ? 1U : 0U));
}

static int samples_seen;

static void encode(const struct vector *vector) {
  int digits;
  char data[400];
  if (strcmp(vector->gives, "malformed") == 0 ||
      sscanf(vector->given, "%d %d %399s", &channels, &digits, data) != 3) {
    return; /* for those who read blocks */
  }
  value_count = 0;
  for (char *at = (char *)(uintptr_t)vector->gives; *at != '\0';) {
    values[value_count++] = (uint32_t)strtoul(at, &at, 10);
  }
  decimate = digits == 2 ? 1 : BOARD_DECIMATE_MAX;
  talk_begin();
  desk.convert = spread;
  first_tick = UINT32_MAX;
  /* Some ticks pass between the request and the first conversion: skipped frames leave room to learn which. */
  talk_say("record channels=%d frames=%d skip=20 decimate=%d", channels, value_count / channels, decimate);
  const char *reply = talk_line(50);
  first_tick = reply == NULL ? 0 : (uint32_t)talk_number(reply, "first_tick");
  const char *block = talk_line(5000);
  char expected[400];
  snprintf(expected, sizeof expected, ": 01 0000 %s", data);
  CHECK(block != NULL && strcmp(block, expected) == 0, "line %d: %s", vector->line,
        block == NULL ? "nothing" : block);
  samples_seen++;
}

static void values_become_the_digits_of_the_vectors(void) {
  samples_seen = 0;
  vectors_each("samples.txt", encode);
  CHECK(samples_seen >= 6, "only %d cases", samples_seen);
  check_note("%d", samples_seen);
}

const struct test vector_tests[] = {
    {"valid requests of the vectors are read as they say", valid_requests_are_read},
    {"valid requests of the vectors are obeyed", valid_requests_are_obeyed},
    {"invalid requests of the vectors are refused byte for byte",
     invalid_requests_are_refused_byte_for_byte},
    {"invalid requests in one stream of single bytes are refused byte for byte",
     invalid_requests_are_refused_in_one_stream_of_single_bytes},
    {"lines get the checksum of the vectors", lines_get_the_checksum_of_the_vectors},
    {"damaged lines of the vectors have not the checksum that the core gives",
     damaged_lines_have_not_the_checksum_that_the_core_gives},
    {"values become the digits of the vectors", values_become_the_digits_of_the_vectors},
    {NULL, NULL}};
