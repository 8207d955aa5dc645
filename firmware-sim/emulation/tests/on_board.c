/*
 * The desk of the firmware's own tests (../firmware/board/desk/desk.h), with the real ELF on an emulated
 * board behind it: so what was written for the core is asked of the board as well.
 */
#include "on_board.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "desk.h"
#include "emulated.h"

struct desk desk;

static char *said;
static size_t said_length;
static size_t said_room;
static size_t said_read;
static uint8_t coming[4000];
static size_t coming_count;
static size_t coming_taken;

static void note_byte(uint8_t byte) {
  if (said_length + 1 > said_room) {
    said_room = said_room * 2 + 4096;
    said = realloc(said, said_room);
    if (said == NULL) {
      abort();
    }
  }
  said[said_length++] = (char)byte;
}

bool on_board_load(const char *elf, struct model *world, const char **why) {
  emulated_on_byte = note_byte;
  return emulated_load(elf, world, why);
}

static void forget(void) {
  said_length = said_read = coming_count = coming_taken = 0;
}

void desk_begin(void) { desk_restart(CAUSE_POWER); }

void desk_restart(enum board_cause cause) {
  forget();
  emulated_reset(cause == CAUSE_POWER ? RESET_POWER : cause == CAUSE_RESET ? RESET_EXTERNAL : RESET_BROWN_OUT);
  /* The host hears nothing and says nothing before the banner. */
  while (said_length == 0) {
    desk_run(1000);
  }
}

void desk_hear(const void *bytes, size_t count) {
  if (coming_taken == coming_count) {
    coming_taken = coming_count = 0;
  }
  if (coming_count + count > sizeof coming) {
    fprintf(stderr, "the host says more than %zu bytes at once\n", sizeof coming);
    abort();
  }
  memcpy(coming + coming_count, bytes, count);
  coming_count += count;
}

bool desk_heard_all(void) { return coming_taken == coming_count && emulated_can_hear(); }

void desk_run(uint64_t cycles) {
  uint64_t until = desk.now + cycles;
  while (desk.now < until) {
    bool busy = coming_taken < coming_count;
    if (busy && emulated_can_hear()) {
      emulated_hear(coming[coming_taken++]);
    }
    uint64_t left = until - desk.now;
    uint64_t slice = busy && left > 32 ? 32 : left;
    if (!emulated_run(slice)) {
      fprintf(stderr, "the processor has stopped\n");
      abort();
    }
    desk.now = emulated_figures()->cycles;
  }
}

const char *desk_line(void) {
  if (said_read > 0) {
    said_length -= said_read;
    memmove(said, said + said_read, said_length);
    said_read = 0;
  }
  char *end = said_length == 0 ? NULL : memchr(said, '\n', said_length);
  if (end == NULL) {
    return NULL;
  }
  *end = '\0';
  said_read = (size_t)(end - said) + 1;
  return said;
}
