#include "desk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "jig.h"
#include "tick.h"

#define BITS_PER_BYTE 10
#define RING 31 /* what the ring of 32 on the ATmega328P holds */

struct desk desk;

static enum board_cause cause_now;

/* The converter and the output, one tick behind each other as on a board. */
static uint64_t next_tick;
static bool tick_held;
static uint16_t converting;
static int16_t level_next;
static uint32_t ticks;

/* Out: one byte in the shift register until shift_free, one behind it. */
static uint64_t shift_free;
static bool behind;
static char behind_byte;

/* In: what is still on its way, and the ring. */
static uint8_t *coming;
static size_t coming_count;
static size_t coming_taken;
static uint64_t next_arrival;
static uint8_t ring[RING];
static uint8_t ring_count;

#ifndef DESK_BARE
static uint64_t buzzes_since;
#endif

static size_t said_room;
static size_t said_read;

static uint16_t mid_scale(uint8_t channel, uint32_t tick) {
  (void)channel;
  (void)tick;
  return BOARD_CODES / 2;
}

static uint64_t byte_cycles(void) {
  return (uint64_t)BITS_PER_BYTE * BOARD_CLOCK_HZ / desk.link_baud;
}

static void *grow(void *block, size_t bytes) {
  void *bigger = realloc(block, bytes);
  if (bigger == NULL) {
    fputs("desk: out of memory\n", stderr);
    abort();
  }
  return bigger;
}

/* ---- time ---- */

static void tick_once(void) {
  uint16_t code = converting;
  ticks++;
  if (level_next != desk.level && desk.on_level != NULL) {
    desk.on_level(ticks, level_next);
  }
  desk.level = level_next;
  converting = desk.convert(tick_pending, ticks);
  tick_take(code);
  level_next = tick_drive();
}

static void arrive(uint8_t byte) {
  if (ring_count == RING) {
    ring[RING - 1] = 0;
  } else {
    ring[ring_count++] = byte;
  }
}

static void shift_out(void) {
  while (behind && shift_free <= desk.now) {
    behind = false;
    desk.said[desk.said_length++] = behind_byte;
    shift_free += byte_cycles();
  }
}

static void advance(uint64_t cycles) {
  uint64_t until = desk.now + cycles;
  for (;;) {
    bool tick_due = next_tick <= until && !tick_held && !desk.ticks_stand;
    bool byte_due = coming_taken < coming_count && next_arrival <= until;
    if (tick_due && (!byte_due || next_tick <= next_arrival)) {
      next_tick += BOARD_TICK_CYCLES;
      tick_once();
    } else if (byte_due) {
      arrive(coming[coming_taken++]);
      next_arrival += byte_cycles();
    } else {
      break;
    }
  }
  desk.now = until;
  shift_out();
}

/* ---- board.h ---- */

void board_start(void) {
  next_tick = desk.now + BOARD_TICK_CYCLES;
  converting = BOARD_CODES / 2;
  level_next = 0;
  desk.level = 0;
  ticks = 0;
  tick_held = false;
  behind = false;
  shift_free = desk.now;
  ring_count = 0;
}

enum board_cause board_start_cause(void) { return cause_now; }

void board_alive(void) { desk.fed++; }

void board_wait(void) { advance(desk.wait_cycles); }

bool board_serial_ready(void) {
  shift_out();
  return !behind;
}

void board_serial_put(char c) {
  if (desk.said_length + 2 > said_room) {
    said_room = said_room * 2 + 4096;
    desk.said = grow(desk.said, said_room);
  }
  advance(desk.put_cycles);
  if (shift_free <= desk.now) {
    shift_free = desk.now;
  }
  behind = true;
  behind_byte = c;
  shift_out();
}

bool board_serial_coming(void) {
  advance(desk.wait_cycles);
  return ring_count > 0;
}

int16_t board_serial_get(void) {
  if (ring_count == 0) {
    return -1;
  }
  uint8_t byte = ring[0];
  ring_count--;
  memmove(ring, ring + 1, ring_count);
  return byte;
}

#ifndef DESK_BARE
void board_lamps_write(uint8_t lit) { desk.lamps = lit; }

void board_buzzer_write(bool on) {
  if (on && !desk.buzzer) {
    buzzes_since = desk.now;
  } else if (!on && desk.buzzer) {
    desk.buzzed = desk.now - buzzes_since;
  }
  desk.buzzer = on;
}

bool board_foot_down(void) { return desk.contact; }

uint8_t board_keep_read(uint8_t at) { return desk.keep[at]; }

void board_keep_write(uint8_t at, uint8_t value) {
  if (desk.keep[at] == value || at == desk.keep_worn) {
    return;
  }
  if (desk.keep_writes_left == 0) {
    if (desk.keep_torn >= 0) {
      desk.keep[at] = (uint8_t)desk.keep_torn;
    }
    longjmp(desk.power_failed, 1);
  }
  if (desk.keep_writes_left > 0) {
    desk.keep_writes_left--;
  }
  desk.keep[at] = value;
  advance(DESK_MS(34) / 10); /* 3.4 ms, as the ATmega328P takes */
}
#endif

void board_hold(void) { tick_held = true; }
void board_release(void) { tick_held = false; }

/* ---- the host's side ---- */

/* All that the core holds between calls stands in two sections of its own (tests/Makefile), so that a
 * restart can put back what they held at first. */
extern char __start_core_data[], __stop_core_data[], __start_core_bss[], __stop_core_bss[];
static char *first_data;

__attribute__((no_sanitize("address"))) static void copy(char *to, const char *from, size_t count) {
  for (size_t i = 0; i < count; i++) {
    ((volatile char *)to)[i] = from[i];
  }
}

static void restart_core(void) {
  size_t data = (size_t)((uintptr_t)__stop_core_data - (uintptr_t)__start_core_data);
  size_t bss = (size_t)((uintptr_t)__stop_core_bss - (uintptr_t)__start_core_bss);
  if (first_data == NULL) {
    first_data = grow(NULL, data + bss);
    copy(first_data, __start_core_data, data);
    copy(first_data + data, __start_core_bss, bss);
  }
  copy(__start_core_data, first_data, data);
  copy(__start_core_bss, first_data + data, bss);
}

void desk_begin(void) {
  char *said = desk.said;
  memset(&desk, 0, sizeof desk);
  desk.said = said;
  desk.link_baud = BOARD_BAUD;
  desk.wait_cycles = 48;
  desk.put_cycles = 120;
  desk.convert = mid_scale;
  desk.keep_writes_left = -1;
  desk.keep_torn = -1;
  desk.keep_worn = -1;
#ifndef DESK_BARE
  memset(desk.keep, 0xFF, sizeof desk.keep);
#endif
  desk_restart(CAUSE_POWER);
}

void desk_restart(enum board_cause cause) {
  cause_now = cause;
  coming_count = 0;
  coming_taken = 0;
  desk.said_length = 0;
  said_read = 0;
  restart_core();
  board_start();
  jig_start();
}

void desk_hear(const void *bytes, size_t count) {
  if (count == 0) {
    return;
  }
  if (coming_taken == coming_count) {
    coming_taken = 0;
    coming_count = 0;
    next_arrival = desk.now + byte_cycles();
  }
  coming = grow(coming, coming_count + count);
  memcpy(coming + coming_count, bytes, count);
  coming_count += count;
}

bool desk_heard_all(void) { return coming_taken == coming_count && ring_count == 0; }

void desk_run(uint64_t cycles) {
  uint64_t until = desk.now + cycles;
  while (desk.now < until) {
    jig_turn();
  }
}

const char *desk_line(void) {
  if (said_read > 0) {
    desk.said_length -= said_read;
    memmove(desk.said, desk.said + said_read, desk.said_length);
    said_read = 0;
  }
  char *end = desk.said_length == 0 ? NULL : memchr(desk.said, '\n', desk.said_length);
  if (end == NULL) {
    return NULL;
  }
  *end = '\0';
  said_read = (size_t)(end - desk.said) + 1;
  return desk.said;
}
