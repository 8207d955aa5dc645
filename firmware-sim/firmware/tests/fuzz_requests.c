/* What nobody would send: the core must answer every line once, keep to its format and never hang. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "desk.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count);

static uint16_t crc_of(const char *bytes, size_t count) {
  unsigned crc = 0xFFFF;
  for (size_t i = 0; i < count; i++) {
    for (int bit = 0; bit < 8; bit++) {
      unsigned feedback = (crc ^ ((unsigned)(unsigned char)bytes[i] >> bit)) & 1U;
      crc = (crc >> 1) ^ (feedback ? 0x8408U : 0U);
    }
  }
  return (uint16_t)(crc ^ 0xFFFFU);
}

static void wrong(const char *what, const char *line) {
  fprintf(stderr, "%s: %s\n", what, line);
  abort();
}

static int read_lines(void) {
  int terminal = 0;
  const char *line;
  while ((line = desk_line()) != NULL) {
    size_t count = strlen(line);
    char seal[8];
    if (count == 0) {
      continue;
    }
    if (count < 9 || count > 160) {
      wrong("length", line);
    }
    snprintf(seal, sizeof seal, " ~%04X", crc_of(line, count - 6));
    if (strcmp(line + count - 6, seal) != 0) {
      wrong("checksum", line);
    }
    const char *word = line + strcspn(line, " ");
    terminal += line[0] >= '0' && line[0] <= '9' &&
                (strncmp(word, " ok", 3) == 0 || strncmp(word, " no ", 4) == 0);
  }
  return terminal;
}

/*
 * A line sealed for the fuzzer: it cannot guess checksums, so a line that begins with "^" is sent without
 * it and with a right checksum.
 */
static void send(const uint8_t *line, size_t count) {
  if (count > 0 && count < 1000 && line[0] == '^') {
    char sealed[1024];
    memcpy(sealed, line + 1, count - 1);
    int size = snprintf(sealed + count - 1, 8, " ~%04X\n", crc_of(sealed, count - 1));
    desk_hear(sealed, count - 1 + (size_t)size);
  } else {
    desk_hear(line, count);
    desk_hear("\n", 1);
  }
}

/* Whether a line is answered: all but those of nothing but one CR, or nothing. */
static int answered(const uint8_t *line, size_t count) {
  return !(count == 0 || (count == 1 && line[0] == '\r'));
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count) {
  desk_begin();
  desk_run(DESK_MS(2));
  read_lines();
  /* 16 lines at most, 4 KiB in all: a record runs beside them in simulated time, which costs real time. */
  for (int lines = 0; count > 0 && lines < 16; lines++) {
    const uint8_t *end = memchr(bytes, '\n', count);
    size_t size = end == NULL ? count : (size_t)(end - bytes);
    int due = answered(bytes, size);
    send(bytes, size);
    int came = 0;
    for (int waits = 0; waits < 400 && (came < due || !desk_heard_all()); waits++) {
      desk_run(DESK_MS(1));
      came += read_lines();
    }
    if (came != due) {
      fprintf(stderr, "%d answers for %d lines\n", came, due);
      abort();
    }
    bytes += size + (end != NULL);
    count -= size + (end != NULL);
  }
  return 0;
}
