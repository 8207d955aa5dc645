/* The wave player against double arithmetic: section 5 of the specification, "The drive at phase p is ...". */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "talk.h"
#include "wave.h"

#define TICKS 4000
#define TICK ((uint64_t)BOARD_TICK_CYCLES)

static int16_t levels[TICKS + 400];
static uint32_t first_seen;

static void note_level(uint32_t tick, int16_t level) {
  /* Only changes are told, so the level holds from here on. */
  for (uint32_t t = tick; t < TICKS + 400; t++) {
    levels[t] = level;
  }
  if (first_seen == 0) {
    first_seen = tick;
  }
}

static int8_t table[BOARD_WAVE_POINTS];

static void load(int points) {
  static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  for (int at = 0; at < points; at += 3) {
    char data[5] = "AAAA";
    const uint8_t bytes[3] = {(uint8_t)table[at], (uint8_t)(at + 1 < points ? table[at + 1] : 0),
                        (uint8_t)(at + 2 < points ? table[at + 2] : 0)};
    uint32_t all = (uint32_t)(bytes[0] << 16 | bytes[1] << 8 | bytes[2]);
    for (int i = 0; i < 4; i++) {
      data[i] = digits[all >> (18 - 6 * i) & 63];
    }
    int left = points - at;
    int count = left > 3 ? 3 : left;
    if (count < 3) {
      data[3] = '=';
    }
    if (count < 2) {
      data[2] = '=';
    }
    const char *reply = talk_ask("1 load at=%d data=%s", at, data);
    CHECK(talk_number(reply, "points") == count, "load: %s", reply);
  }
}

static double sine_of(double turns, int points) {
  (void)points;
  return sin(2 * M_PI * turns);
}

static double table_of(double turns, int points) {
  double place = turns * points;
  int index = (int)place;
  double here = table[index % points] == -128 ? -127 : table[index % points];
  double next = table[(index + 1) % points] == -128 ? -127 : table[(index + 1) % points];
  return (here + (next - here) * (place - index)) / 127;
}

/* The worst departure of what was put out from dc + round(level x wave(phase)). */
static int worst_step(uint32_t step, int level, int dc, int points, double (*wave)(double, int),
                      uint32_t first) {
  int worst = 0;
  uint32_t phase = 0;
  for (uint32_t tick = first; tick < TICKS; tick++, phase += step) {
    double exact = level * wave((double)phase / 4294967296.0, points);
    int off = abs(levels[tick] - dc - (int)floor(exact + 0.5));
    worst = off > worst ? off : worst;
    CHECK(abs(levels[tick]) <= BOARD_LEVEL_MAX, "level %d is beyond the drive", levels[tick]);
  }
  return worst;
}

static void begin(void) {
  talk_begin();
  memset(levels, 0, sizeof levels);
  first_seen = 0;
  desk.on_level = note_level;
}

static int play_and_compare(uint32_t step, int level, int dc, int points) {
  begin();
  if (points > 0) {
    load(points);
  }
  /* Loading takes a while: the table's run is looked at from the tick that the reply names. */
  char shape[40] = "tone";
  if (points > 0) {
    snprintf(shape, sizeof shape, "table points=%d", points);
  }
  const char *reply = talk_ask("2 play wave=%s step=%u level=%d dc=%d", shape, step, level, dc);
  int64_t first = talk_number(reply, "tick");
  CHECK(first > 0 && first < TICKS / 2, "play: %s", reply);
  if (first <= 0 || first >= TICKS / 2) {
    return 99;
  }
  while (desk.now < TICKS * TICK + TICK * 4) {
    talk_ask("3 status");
  }
  return worst_step(step, level, dc, points, points > 0 ? table_of : sine_of, (uint32_t)first);
}

static void tones_keep_within_a_step_of_a_sine(void) {
  const uint32_t seed = 20261125;
  talk_seed(seed);
  int worst = 0;
  for (int run = 0; run < 40; run++) {
    uint32_t step = talk_random() >> (run % 8 + 1);
    int level = run < 2 ? 511 * run : (int)(talk_random() % 512);
    int dc = (int)(talk_random() % 1023) - 511;
    int room = 511 - level;
    dc = dc > room ? room : dc < -room ? -room : dc;
    int off = play_and_compare(step, level, dc, 0);
    CHECK(off <= 1, "seed %u run %d: step=%u level=%d dc=%d is %d off", seed, run, step, level, dc, off);
    worst = off > worst ? off : worst;
  }
  check_note("at most %d step off in 40 tones, seed %u", worst, seed);
}

static void tables_keep_within_a_step_of_straight_lines(void) {
  const uint32_t seed = 4711;
  talk_seed(seed);
  int worst = 0;
  for (int run = 0; run < 21; run++) {
    int points = 16 << (run % 4);
    for (int i = 0; i < points; i++) {
      table[i] = run == 0 ? (int8_t)(i % 2 == 0 ? -128 : 127) : (int8_t)talk_random();
    }
    uint32_t step = talk_random() >> (run % 6 + 4);
    int level = run < 4 ? 511 : (int)(talk_random() % 512);
    int off = play_and_compare(step, level, 0, points);
    CHECK(off <= 1, "seed %u run %d: points=%d step=%u level=%d is %d off", seed, run, points, step, level,
          off);
    worst = off > worst ? off : worst;
  }
  check_note("at most %d step off in 21 tables, seed %u", worst, seed);
}

static void a_table_of_every_size_is_read_at_every_point(void) {
  for (int points = 16; points <= BOARD_WAVE_POINTS; points *= 2) {
    talk_begin();
    for (int i = 0; i < points; i++) {
      wave_points[i] = (int8_t)(i * 127 / (points - 1));
    }
    struct wave wave = {.kind = WAVE_TABLE, .gain = wave_gain(127)};
    wave_shape(&wave, (uint16_t)points, (uint32_t)(4294967296ULL / (uint64_t)points));
    wave_start(&wave);
    for (int i = 0; i < 2 * points; i++) {
      int level = wave_next();
      CHECK(abs(level - wave_points[i % points]) <= 1, "%d points: point %d gives %d", points, i, level);
    }
  }
}

static void a_stop_puts_the_drive_to_mid_scale(void) {
  begin();
  talk_ask("1 play wave=dc dc=-300");
  desk_run(TICK * 3);
  CHECK(desk.level == -300, "level %d", desk.level);
  talk_ask("2 stop");
  desk_run(TICK * 2);
  CHECK(desk.level == 0, "level %d", desk.level);
}

const struct test wave_tests[] = {
    {"tones keep within a drive step of a sine", tones_keep_within_a_step_of_a_sine},
    {"tables keep within a drive step of straight lines", tables_keep_within_a_step_of_straight_lines},
    {"a table of every size is read at every point", a_table_of_every_size_is_read_at_every_point},
    {"a stop puts the drive to mid-scale", a_stop_puts_the_drive_to_mid_scale},
    {NULL, NULL}};
