/* The board as a whole: samples, waves, talk beside a record, budgets of time, resets. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "emulated.h"
#include "model.h"
#include "talk.h"

#define CYCLES_PER_TICK 1024
#define FRAMES_MAX 20000

extern struct model trial_world;

static uint16_t codes[FRAMES_MAX][3];
static int frames_seen;
static int blocks_out_of_order;
static int overruns;
static int next_sequence;

static void take(const char *line, int channels) {
  unsigned id;
  unsigned sequence;
  char data[140];
  overruns += talk_begins(line, "! overrun");
  if (sscanf(line, ": %2X %4X %139s", &id, &sequence, data) != 3) {
    return;
  }
  blocks_out_of_order += sequence != (unsigned)next_sequence++;
  for (size_t i = 0; i + 1 < strlen(data) && frames_seen < FRAMES_MAX; i += 2) {
    int which = (int)(i / 2) % channels;
    codes[frames_seen][which] = (uint16_t)(talk_digit64(data[i]) * 64 + talk_digit64(data[i + 1]));
    frames_seen += which == channels - 1;
  }
}

static void take_pair(const char *line) { take(line, 2); }
static void take_three(const char *line) { take(line, 3); }

static void forget(void) { frames_seen = blocks_out_of_order = overruns = next_sequence = 0; }

/* Reads a record to its end. */
static bool read_record(int channels) {
  const char *line;
  while ((line = talk_line(1000)) != NULL) {
    if (talk_begins(line, "! recorded")) {
      return strstr(line, " complete=yes") != NULL;
    }
    take(line, channels);
  }
  return false;
}

/* Amplitude and phase at a known frequency over whole periods, by projection. */
static void project(int channel, int frames, double turns_per_frame, double late_frames, double *real, double *imaginary) {
  *real = *imaginary = 0;
  for (int i = 0; i < frames; i++) {
    double angle = 2 * M_PI * turns_per_frame * (i + late_frames);
    *real += codes[i][channel] * cos(angle) * 2 / frames;
    *imaginary -= codes[i][channel] * sin(angle) * 2 / frames;
  }
}

static void a_resistor_reads_as_its_ohms_with_no_phase(void) {
  talk_begin();
  model_resistor(&trial_world, 8);
  /* 2^32 / 312.5 a tick is 50 Hz: 10 periods are 3125 ticks; 6250 ticks, 3125 pairs, hold 20. */
  const char *reply = talk_ask("1 play wave=tone step=13743895 level=400");
  CHECK(talk_begins(reply, "1 ok"), "%s", reply);
  reply = talk_ask("2 record channels=2 frames=3125 skip=40 decimate=1");
  CHECK(talk_begins(reply, "2 ok"), "%s", reply);
  forget();
  CHECK(read_record(2) && frames_seen == 3125 && blocks_out_of_order == 0, "%d frames", frames_seen);
  double turns = 2 * 13743895 / 4294967296.0;
  double vr;
  double vi;
  double ir;
  double ii;
  project(0, 3125, turns, 0, &vr, &vi);
  project(1, 3125, turns, 0.5, &ir, &ii);
  double ohm = hypot(vr, vi) / hypot(ir, ii) * 10;
  double degrees = (atan2(vi, vr) - atan2(ii, ir)) * 180 / M_PI;
  CHECK(fabs(ohm - 8) < 0.01, "%.4f ohm", ohm);
  CHECK(fabs(degrees) < 0.05, "%.4f degrees", degrees);
  /* 400 steps of 0.8 V / 511 through 8 of 18 ohm. */
  double volt = hypot(vr, vi) * 5 / 1024 / 3;
  CHECK(fabs(volt - 400 * 0.8 / 511 * 8 / 18) < 0.0005, "%.5f V", volt);
  check_note("%.4f ohm, %.4f degree, %.4f V", ohm, degrees, volt);
}

static void the_ticks_told_are_those_of_wave_and_converter(void) {
  talk_begin();
  model_resistor(&trial_world, 8);
  const char *reply = talk_ask("1 record channels=2 frames=4000 skip=0 decimate=1");
  int64_t first = talk_number(reply, "first_tick");
  forget();
  int64_t wave = 0;
  talk_aside = take_pair;
  reply = talk_ask("2 play wave=dc dc=300");
  wave = talk_number(reply, "tick");
  CHECK(read_record(2), "the record ends early");
  /* A converter that starts in tick T reads the world after the pulse of the tick before. */
  int step = 0;
  while (step < frames_seen && codes[step][1] < 520) {
    step++;
  }
  int64_t at = first + step * 2 + 1 - 1;
  CHECK(at == wave || at == wave + 1, "the step is seen after tick %ld, told as %ld", (long)at, (long)wave);
  check_note("dc=300 begins with tick %ld, seen by the conversion of tick %ld", (long)wave, (long)(at + 1));
}

static uint64_t emulated_from;

static void talk_beside_a_record(int channels, const char *play) {
  talk_begin();
  talk_ask("%s", play);
  const char *reply = talk_ask("1 record channels=%d frames=15000 skip=0 decimate=1", channels);
  CHECK(talk_begins(reply, "1 ok"), "%s", reply);
  forget();
  emulated_from = emulated_figures()->cycles;
  talk_aside = channels == 2 ? take_pair : take_three;
  int asked = 0;
  while (frames_seen < 14000 && asked < 3000 && overruns == 0) {
    reply = talk_ask("9999 %s", asked % 8 == 7 ? "identify" : asked % 8 == 3 ? "lamp name=busy state=blink" : "status");
    asked++;
    if (strstr(reply, "ok") == NULL) {
      CHECK(false, "%s", reply);
      break;
    }
  }
  talk_aside = NULL;
  CHECK(read_record(channels), "the record did not end whole");
  CHECK(frames_seen == 15000 && blocks_out_of_order == 0 && overruns == 0, "%d frames, %d blocks out of order, %d overruns",
        frames_seen, blocks_out_of_order, overruns);
  check_note("%d requests, and no sample lost", asked);
}

static void no_sample_is_lost_beside_talk_with_two_channels(void) {
  talk_beside_a_record(2, "0 play wave=tone step=13743895 level=400");
}

static void no_sample_is_lost_beside_talk_and_a_table(void) {
  talk_beside_a_record(2, "0 play wave=table points=1024 step=13743895 level=400");
}

static void no_sample_is_lost_beside_talk_with_three_channels(void) {
  talk_beside_a_record(3, "0 play wave=tone step=13743895 level=400 dc=-100");
}

static void the_longest_tick_is_met_and_within_its_budget(void) {
  /* The shortest table needs the longest shifts; sums and clipping add what they cost. */
  talk_begin();
  model_resistor(&trial_world, 8);
  talk_ask("1 load at=0 data=gYGBgYGBgYF/f39/f39/fw==");
  talk_ask("2 play wave=table points=16 step=1999999999 level=100 dc=-400");
  talk_ask("3 record channels=3 frames=2000 skip=0 decimate=2");
  forget();
  talk_aside = NULL;
  for (int i = 0; i < 30; i++) {
    talk_ask("4 status");
    desk_run(DESK_MS(7));
  }
  talk_ask("5 stop");
  talk_ask("6 play wave=table points=16 step=1999999999 level=511");
  talk_ask("7 record channels=2 frames=3000 skip=0 decimate=64");
  for (int i = 0; i < 30; i++) {
    talk_ask("8 status");
    desk_run(DESK_MS(5));
  }
  const struct emulated_figures *f = emulated_figures();
  CHECK(f->tick_worst <= 800, "the tick's interrupt ends %u cycles after its overflow, of 1024", f->tick_worst);
  CHECK(f->ticks_lost == 0, "%llu ticks were lost", (unsigned long long)f->ticks_lost);
  CHECK(f->receive_wait <= 600, "a byte waited %u cycles, of 640 that the port holds two", f->receive_wait);
  check_note("ends at most %u cycles after its overflow, %u of its own; a byte waits at most %u", f->tick_worst,
             f->tick_run_worst, f->receive_wait);
}

static void conversions_start_at_a_fixed_place_in_the_tick(void) {
  const struct emulated_figures *f = emulated_figures();
  CHECK(f->conversions > 100000, "only %llu conversions", (unsigned long long)f->conversions);
  double share = (double)f->moved / (double)f->conversions;
  CHECK(share < 0.02, "%.2f %% moved to a later edge of the converter's clock", share * 100);
  check_note("from %u to %u cycles after the overflow; beside unceasing talk %.2f %% of %llu moved to a later edge",
             f->start_first, f->start_last, share * 100, (unsigned long long)f->conversions);
}

static void the_link_carries_what_it_should(void) {
  const struct emulated_figures *f = emulated_figures();
  CHECK(f->sent_busiest >= 3500, "at most %u bytes in a tenth of a second", f->sent_busiest);
  check_note("%.1f %% of 500 000 baud in the busiest tenth of a second", f->sent_busiest / 50.0);
}

static void the_stack_stays_within_what_was_computed(void) {
  const struct emulated_figures *f = emulated_figures();
  const char *computed = getenv("STACK_COMPUTED");
  uint32_t bound = computed == NULL ? 0 : (uint32_t)strtoul(computed, NULL, 10);
  CHECK(bound > 0, "STACK_COMPUTED is not set");
  CHECK(f->stack_used <= bound, "seen %u bytes, computed %u", f->stack_used, bound);
  check_note("seen %u of at most %u bytes", f->stack_used, bound);
}

static void a_reset_ends_everything_and_is_told(void) {
  talk_begin();
  talk_ask("1 store serial=KEPT-1");
  talk_ask("2 play wave=tone step=13743895 level=400");
  talk_ask("3 record channels=2 frames=10000 skip=0 decimate=1");
  desk_run(DESK_MS(50));
  desk_restart(CAUSE_RESET);
  const char *line = talk_line(100);
  CHECK(line != NULL && talk_begins(line, "! ready cause=reset protocol=1 "), "%s", line == NULL ? "nothing" : line);
  const char *reply = talk_ask("4 status");
  CHECK(strstr(reply, " wave=none recording=0 ") != NULL, "%s", reply);
  desk_restart(CAUSE_BROWN_OUT);
  line = talk_line(100);
  CHECK(line != NULL && talk_begins(line, "! ready cause=brown-out "), "%s", line == NULL ? "nothing" : line);
  talk_say("5 identify");
  line = talk_line(100);
  CHECK(line != NULL && strstr(line, " serial=KEPT-1 ") != NULL, "%s", line == NULL ? "nothing" : line);
  while (line != NULL && !talk_begins(line, "5 ok")) {
    line = talk_line(100);
  }
  talk_ask("6 store serial=none");
}

static void foot_and_lamps_are_pins(void) {
  talk_begin();
  emulated_foot(true);
  const char *line = talk_line(100);
  CHECK(line != NULL && strcmp(line, "! foot state=down") == 0, "%s", line == NULL ? "nothing" : line);
  emulated_foot(false);
  line = talk_line(100);
  CHECK(line != NULL && strcmp(line, "! foot state=up") == 0, "%s", line == NULL ? "nothing" : line);
  bool lit[4];
  talk_ask("1 lamp name=fail state=on");
  desk_run(DESK_MS(1));
  emulated_lamps(lit);
  CHECK(!lit[0] && lit[1] && !lit[2] && !lit[3], "fail is asked for: %d %d %d %d", lit[0], lit[1], lit[2], lit[3]);
  talk_ask("2 buzz milliseconds=20");
  emulated_lamps(lit);
  CHECK(lit[3], "the buzzer is silent");
  desk_run(DESK_MS(30));
  emulated_lamps(lit);
  CHECK(!lit[3], "the buzzer sounds on");
}

static void clipping_is_told_and_halts(void) {
  talk_begin();
  model_resistor(&trial_world, 1e6);
  trial_world.d[0][0] *= 4;
  talk_ask("1 play wave=dc dc=500");
  bool clipping = false;
  bool halted = false;
  const char *line;
  while (!halted && (line = talk_line(1500)) != NULL) {
    clipping = clipping || talk_begins(line, "! clipping channel=0 ");
    halted = strcmp(line, "! halted cause=clipping") == 0;
  }
  CHECK(clipping && halted, "clipping %d, halted %d", clipping, halted);
  model_resistor(&trial_world, 8);
}

const struct test board_tests[] = {
    {"a resistor reads as its ohms, with no phase", a_resistor_reads_as_its_ohms_with_no_phase},
    {"the ticks told are those of wave and converter", the_ticks_told_are_those_of_wave_and_converter},
    {"no sample is lost beside talk, two channels", no_sample_is_lost_beside_talk_with_two_channels},
    {"no sample is lost beside talk, three channels", no_sample_is_lost_beside_talk_with_three_channels},
    {"no sample is lost beside talk and a table", no_sample_is_lost_beside_talk_and_a_table},
    {"a reset ends everything, is told, and keeps what is stored", a_reset_ends_everything_and_is_told},
    {"foot switch, lamps and buzzer are pins", foot_and_lamps_are_pins},
    {"clipping is told and halts", clipping_is_told_and_halts},
    {"the longest tick is within its budget", the_longest_tick_is_met_and_within_its_budget},
    {"conversions start at a fixed place in the tick", conversions_start_at_a_fixed_place_in_the_tick},
    {"the link carries a raw record and talk", the_link_carries_what_it_should},
    {"the stack stays within what was computed", the_stack_stays_within_what_was_computed},
    {NULL, NULL}};
