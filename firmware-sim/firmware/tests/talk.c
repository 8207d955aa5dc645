#include "talk.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"

void (*talk_aside)(const char *line);

static char line[400];

uint16_t talk_crc(const char *bytes, size_t count) {
  unsigned crc = 0xFFFF;
  for (size_t i = 0; i < count; i++) {
    for (int bit = 0; bit < 8; bit++) {
      unsigned feedback = (crc ^ ((unsigned)(unsigned char)bytes[i] >> bit)) & 1U;
      crc = (crc >> 1) ^ (feedback ? 0x8408U : 0U);
    }
  }
  return (uint16_t)(crc ^ 0xFFFFU);
}

void talk_begin(void) {
  talk_aside = NULL;
  desk_begin();
  const char *ready = talk_line(100);
  CHECK(ready != NULL && talk_begins(ready, "! ready cause=power protocol=1 "), "not ready: %s",
        ready == NULL ? "nothing" : ready);
}

static void say(const char *format, va_list values) {
  char text[300];
  int count = vsnprintf(text, sizeof text - 8, format, values);
  count += snprintf(text + count, 8, " ~%04X\n", talk_crc(text, (size_t)count));
  desk_hear(text, (size_t)count);
}

void talk_say(const char *format, ...) {
  va_list values;
  va_start(values, format);
  say(format, values);
  va_end(values);
}

const char *talk_line(uint32_t milliseconds) {
  uint64_t until = desk.now + DESK_MS(milliseconds);
  const char *said = desk_line();
  while ((said == NULL || said[0] == '\0') && desk.now < until) {
    desk_run(2000);
    said = desk_line();
  }
  if (said == NULL || said[0] == '\0') {
    return NULL;
  }
  size_t count = strlen(said);
  if (count > LINE_MAX_JIG || count < 7 || strncmp(said + count - 6, " ~", 2) != 0) {
    check_fail(__FILE__, __LINE__, "no line of a jig, %zu characters: %s", count, said);
    return NULL;
  }
  char expected[8];
  snprintf(expected, sizeof expected, " ~%04X", talk_crc(said, count - 6));
  CHECK(strcmp(expected, said + count - 6) == 0, "checksum%s is right for: %s", expected, said);
  memcpy(line, said, count - 6);
  line[count - 6] = '\0';
  return line;
}

const char *talk_ask(const char *format, ...) {
  va_list values;
  va_start(values, format);
  say(format, values);
  va_end(values);
  for (;;) {
    const char *said = talk_line(1000);
    if (said == NULL) {
      return "";
    }
    bool aside = said[0] == '!' || said[0] == ':' || strstr(said, " + ") != NULL;
    if (!aside) {
      return said;
    }
    if (talk_aside != NULL) {
      talk_aside(said);
    }
  }
}

int64_t talk_number(const char *text, const char *key) {
  char field[40];
  snprintf(field, sizeof field, " %s=", key);
  const char *at = strstr(text, field);
  return at == NULL ? -1 : strtoll(at + strlen(field), NULL, 10);
}

bool talk_begins(const char *text, const char *with) {
  return strncmp(text, with, strlen(with)) == 0;
}

static uint32_t state = 1;

void talk_seed(uint32_t seed) { state = seed; }

/* G. Marsaglia, Xorshift RNGs, J. Stat. Soft. 8 (2003), shifts 13, 17, 5. */
uint32_t talk_random(void) {
  state ^= state << 13;
  state ^= state >> 17;
  state ^= state << 5;
  return state;
}

int talk_digit64(char c) {
  static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  const char *at = c == '\0' ? NULL : strchr(digits, c);
  return at == NULL ? -1 : (int)(at - digits);
}
