/* Holds the dialogues of protocol/vectors with the core. Their form: protocol/vectors/README.md. */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "talk.h"
#include "vectors.h"

/* ---- the numbers that braces stand for ---- */

static struct {
  char name[24];
  int64_t value;
} numbers[60];
static int number_count;

static void put(const char *name, int64_t value) {
  snprintf(numbers[number_count].name, sizeof numbers[0].name, "%s", name);
  numbers[number_count++].value = value;
}

static int64_t number(const char *name, const char *where) {
  for (int i = 0; i < number_count; i++) {
    if (strcmp(numbers[i].name, name) == 0) {
      return numbers[i].value;
    }
  }
  check_fail(__FILE__, __LINE__, "%s: no number is called %s", where, name);
  return 0;
}

static int channel_lines;
static int detail_lines;

static void put_all(const char *detail) {
  detail_lines++;
  channel_lines += strstr(detail, " + channel ") != NULL;
  char text[200];
  snprintf(text, sizeof text, "%s", detail);
  for (char *word = strtok(text, " "); word != NULL; word = strtok(NULL, " ")) {
    char *equals = strchr(word, '=');
    if (equals != NULL && (isdigit((unsigned char)equals[1]) != 0)) {
      *equals = '\0';
      put(word, strtoll(equals + 1, NULL, 10));
    }
  }
}

static void learn(void) {
  number_count = channel_lines = detail_lines = 0;
  talk_begin();
  talk_aside = put_all;
  talk_ask("1 identify");
  put("channels", channel_lines);
  put("lines", detail_lines);
  put("halves", number("decimate_max", "") >= 2);
  /* Specification, section 8: 64 raw samples of one a tick are 145 characters. */
  put("link_slow", number("clock_hz", "") * 145 * 100 > number("baud", "") * 8 * 64 * number("tick_cycles", ""));
}

static int64_t step_of(int64_t millihertz) {
  double exact = (double)millihertz * 4294967296.0 * (double)number("tick_cycles", "step") /
                 ((double)number("clock_hz", "step") * 1000.0);
  return (int64_t)(exact + 0.5);
}

static void substitute(const char *from, char *into, const char *where) {
  while (*from != '\0') {
    char name[24];
    int64_t shift = 0;
    int used = 0;
    if (sscanf(from, "{step:%ld}%n", &shift, &used) == 1 && used > 0) {
      into += sprintf(into, "%lld", (long long)step_of(shift));
      from += used;
    } else if (sscanf(from, "{%23[a-z0-9_]%n", name, &used) == 1 && from[0] == '{') {
      from += used;
      char *end = (char *)(uintptr_t)from;
      shift = *from == '}' ? 0 : strtoll(from, &end, 10);
      from = end + 1;
      into += sprintf(into, "%lld", (long long)(number(name, where) + shift));
    } else {
      *into++ = *from++;
    }
  }
  *into = '\0';
}

/* ---- sending ---- */

static size_t seal(char *bytes, size_t count) {
  size_t start = 0;
  for (size_t i = 0; i < count; i++) {
    if (bytes[i] == '\n') {
      start = i + 1;
    } else if (count - i >= 6 && memcmp(bytes + i, " ~....", 6) == 0) {
      char digits[5];
      snprintf(digits, sizeof digits, "%04X", talk_crc(bytes + start, i - start));
      memcpy(bytes + i + 2, digits, 4);
    }
  }
  return count;
}

static void send(const char *line, uint64_t pause, const char *where) {
  char bytes[1000];
  substitute(line, bytes, where);
  size_t count = seal(bytes, vectors_unescape(bytes));
  bytes[count++] = '\n';
  for (size_t i = 0; i < count; i++) {
    desk_hear(&bytes[i], 1);
    if (pause > 0) {
      desk_run(pause);
    }
  }
}

/* ---- expecting ---- */

static bool field_matches(const char *expected, const char *said) {
  const char *equals = strchr(expected, '=');
  size_t key = (size_t)(equals - expected) + 1;
  char field[200];
  snprintf(field, sizeof field, " %.*s", (int)key, expected);
  const char *at = strstr(said, field);
  if (at == NULL) {
    return false;
  }
  const char *value = at + strlen(field);
  size_t size = strcspn(value, " ");
  return strcmp(equals + 1, "*") == 0 ||
         (strlen(equals + 1) == size && strncmp(value, equals + 1, size) == 0);
}

static bool matches(const char *expected, const char *said) {
  char text[400];
  snprintf(text, sizeof text, "%s", expected);
  bool block = said[0] == ':';
  const char *at = said;
  for (char *word = strtok(text, " "); word != NULL; word = strtok(NULL, " ")) {
    if (strncmp(word, "~....", 5) == 0) {
      break;
    }
    if (!block && strchr(word, '=') != NULL) {
      if (!field_matches(word, said)) {
        return false;
      }
      continue;
    }
    size_t size = strcspn(at, " ");
    if (size == 0 || (strcmp(word, "*") != 0 &&
                      (strlen(word) != size || strncmp(word, at, size) != 0))) {
      return false;
    }
    at += size;
    at += *at == ' ';
  }
  bool more_words = *at != '\0' && strchr(at, '=') == NULL;
  bool checked = strstr(said, " checked=") != NULL && strstr(expected, " checked=") == NULL;
  return !more_words && !checked;
}

static char waiting[400]; /* a line that was read and did not match "<*" */

static const char *next_line(uint32_t milliseconds) {
  if (waiting[0] != '\0') {
    static char now[400];
    snprintf(now, sizeof now, "%s", waiting);
    waiting[0] = '\0';
    return now;
  }
  const char *said;
  do {
    said = talk_line(milliseconds);
  } while (said != NULL && (talk_begins(said, "! foot") || talk_begins(said, "! clipping")));
  return said;
}

static void expect(const char *line, const char *where) {
  char expected[400];
  substitute(line, expected, where);
  const char *said = next_line(2000);
  CHECK(said != NULL && matches(expected, said), "%s: expected \"%s\", came \"%s\"", where, expected,
        said == NULL ? "nothing" : said);
}

static void expect_any(const char *line, const char *where) {
  char expected[400];
  substitute(line, expected, where);
  for (;;) {
    const char *said = next_line(2000);
    if (said == NULL) {
      return;
    }
    if (!matches(expected, said)) {
      memmove(waiting, said, strlen(said) + 1);
      return;
    }
  }
}

/* ---- files ---- */

static int held;
static int skipped;
static bool open_dialogue;
static uint64_t byte_pause;

static void end_dialogue(const char *where) {
  if (open_dialogue) {
    const char *more = next_line(100);
    CHECK(more == NULL, "%s: more came: %s", where, more);
  }
  open_dialogue = false;
}

static void step(const char *line, const char *where, bool *applies) {
  char text[400];
  if (strncmp(line, "== ", 3) == 0) {
    end_dialogue(where);
    talk_begin();
    waiting[0] = '\0';
    *applies = true;
    open_dialogue = true;
    held++;
  } else if (*applies && strncmp(line, "? ", 2) == 0) {
    char name[24];
    long long value = 0;
    sscanf(line, "? %23[a-z_]=%lld", name, &value);
    *applies = number(name, where) == value;
    skipped += !*applies;
    open_dialogue = *applies;
  } else if (*applies && strncmp(line, "> ", 2) == 0) {
    send(line + 2, byte_pause, where);
  } else if (*applies && strncmp(line, "< ", 2) == 0) {
    expect(line + 2, where);
  } else if (*applies && strncmp(line, "<* ", 3) == 0) {
    expect_any(line + 3, where);
  } else if (*applies && strncmp(line, "pause ", 6) == 0) {
    substitute(line + 6, text, where);
    desk_run(DESK_MS(strtoull(text, NULL, 10)));
  } else if (*applies && line[0] != '\0' && line[0] != '#') {
    check_fail(__FILE__, __LINE__, "%s: cannot be read: %s", where, line);
  }
}

static void hold_file(const char *name) {
  char path[1000];
  char line[1000];
  bool applies = false;
  snprintf(path, sizeof path, "%s/dialogues/%s", vectors_folder, name);
  FILE *in = fopen(path, "r");
  CHECK(in != NULL, "cannot read %s", path);
  for (int n = 1; in != NULL && fgets(line, sizeof line, in) != NULL; n++) {
    char where[300];
    line[strcspn(line, "\n")] = '\0';
    snprintf(where, sizeof where, "%s line %d", name, n);
    step(line, where, &applies);
  }
  end_dialogue(name);
  if (in != NULL) {
    fclose(in);
  }
}

static void hold_all(uint64_t pause) {
  char path[1000];
  char name[200];
  byte_pause = pause;
  held = skipped = 0;
  learn();
  snprintf(path, sizeof path, "%s/dialogues/INDEX", vectors_folder);
  FILE *index = fopen(path, "r");
  CHECK(index != NULL, "cannot read %s", path);
  while (index != NULL && fgets(name, sizeof name, index) != NULL) {
    name[strcspn(name, "\n")] = '\0';
    if (BOARD_KEEP_BYTES == 0 && strcmp(name, "store.txt") == 0) {
      continue; /* for boards that keep something, as vectors/README.md says */
    }
    hold_file(name);
  }
  if (index != NULL) {
    fclose(index);
  }
  CHECK(held - skipped > 40, "only %d dialogues", held - skipped);
  check_note("%d, and %d that do not apply", held - skipped, skipped);
}

static void dialogues_are_held(void) { hold_all(0); }
static void dialogues_are_held_byte_by_byte(void) { hold_all(DESK_MS(1) / 10); }

const struct test dialogue_tests[] = {
    {"dialogues of the vectors are held", dialogues_are_held},
    {"dialogues are held one byte at a time", dialogues_are_held_byte_by_byte},
    {NULL, NULL}};
