/* play and limit: what wave runs, and how high it may go. */
#include "obey.h"

#include <stddef.h>
#include <string.h>

#include "board.h"
#include "crc.h"
#include "field.h"
#include "jig.h"
#include "limits.h"
#include "out.h"
#include "reply.h"
#include "stream.h"
#include "wave.h"

#define STEP_MAX 2147483647
#define MILLIHERTZ_MAX 2000000
#define POINTS_MIN 16

static int16_t limit_peak = BOARD_LEVEL_MAX;

static bool step(uint32_t *into) {
  int32_t value;
  if (field_is_there(TEXT("step")) || !field_is_there(TEXT("millihertz"))) {
    if (!field_number(TEXT("step"), 0, STEP_MAX, &value)) {
      return false;
    }
    *into = (uint32_t)value;
    return field_must_lack(TEXT("millihertz"));
  }
  if (!field_number(TEXT("millihertz"), 1, MILLIHERTZ_MAX, &value)) {
    return false;
  }
  /* 2 000 000 x 2^32 x 2048 + 2^46 < 2^64 (limits.h); half the divisor rounds half up. */
  const uint64_t divisor = 1000ULL * BOARD_CLOCK_HZ;
  *into = (uint32_t)((((uint64_t)(uint32_t)value << 32) * BOARD_TICK_CYCLES + divisor / 2) / divisor);
  return true;
}

static bool hex4(const char *value, uint16_t *into) {
  uint16_t result = 0;
  uint8_t i = 0;
  for (; value[i] != '\0'; i++) {
    char c = value[i];
    uint8_t nibble;
    if (c >= '0' && c <= '9') {
      nibble = (uint8_t)(c - '0');
    } else if (c >= 'A' && c <= 'F') {
      nibble = (uint8_t)(c - 'A' + 10);
    } else if (c >= 'a' && c <= 'f') {
      nibble = (uint8_t)(c - 'a' + 10);
    } else {
      return reply_refuse(ERROR_VALUE_MALFORMED, TEXT("crc"));
    }
    result = (uint16_t)((uint16_t)(result << 4) | nibble);
  }
  *into = result;
  return i == 4 ? true : reply_refuse(ERROR_VALUE_MALFORMED, TEXT("crc"));
}

static uint16_t table_crc(uint16_t points) {
  uint16_t crc = CRC_START;
  for (uint16_t i = 0; i < points; i++) {
    if (i % 128U == 0) {
      stream_between_lines(); /* 1024 points take longer than the queue of samples holds */
    }
    crc = crc_add(crc, (uint8_t)wave_points[i]);
  }
  return crc_finish(crc);
}

struct play {
  struct wave wave;
  uint32_t step;
  uint16_t points;
  int32_t level;
  int32_t dc;
  bool with_crc;
  uint16_t crc;
};

static bool level_and_dc(struct play *play) {
  if (!field_number(TEXT("level"), 0, BOARD_LEVEL_MAX, &play->level)) {
    return false;
  }
  return !field_is_there(TEXT("dc")) || field_number(TEXT("dc"), -BOARD_LEVEL_MAX, BOARD_LEVEL_MAX, &play->dc);
}

static bool read_tone(struct play *play) {
  play->wave.kind = WAVE_TONE;
  play->points = WAVE_SINE_POINTS;
  return field_must_lack(TEXT("points")) && step(&play->step) && level_and_dc(play) &&
         field_must_lack(TEXT("crc"));
}

static bool read_table(struct play *play) {
  play->wave.kind = WAVE_TABLE;
  if (!field_power_of_two(TEXT("points"), POINTS_MIN, BOARD_WAVE_POINTS, &play->points) ||
      !step(&play->step) || !level_and_dc(play)) {
    return false;
  }
  play->with_crc = field_is_there(TEXT("crc"));
  return !play->with_crc || hex4(field_find(TEXT("crc")), &play->crc);
}

static bool read_dc(struct play *play) {
  play->wave.kind = WAVE_DC;
  return field_must_lack(TEXT("points")) && field_must_lack(TEXT("step")) &&
         field_must_lack(TEXT("millihertz")) && field_must_lack(TEXT("level")) &&
         field_number(TEXT("dc"), -BOARD_LEVEL_MAX, BOARD_LEVEL_MAX, &play->dc) &&
         field_must_lack(TEXT("crc"));
}

static bool read_play(struct play *play) {
  const char *kind;
  if (!field_text(TEXT("wave"), &kind)) {
    return false;
  }
  if (request_is(kind, TEXT("tone"))) {
    return read_tone(play);
  }
  if (request_is(kind, TEXT("table"))) {
    return read_table(play);
  }
  if (request_is(kind, TEXT("dc"))) {
    return read_dc(play);
  }
  return reply_refuse(ERROR_VALUE_MALFORMED, TEXT("wave"));
}

bool obey_play(void) {
  struct play play;
  memset(&play, 0, sizeof play);
  if (!read_play(&play)) {
    return false;
  }
  int32_t peak = play.level + (play.dc < 0 ? -play.dc : play.dc);
  if (peak > limit_peak) {
    return reply_refuse_beyond(ERROR_ABOVE_LIMIT, peak, limit_peak);
  }
  if (play.with_crc && table_crc(play.points) != play.crc) {
    return reply_refuse(ERROR_TABLE_DIFFERS, NULL);
  }
  play.wave.dc = (int16_t)play.dc;
  play.wave.peak = (int16_t)peak;
  play.wave.gain = wave_gain((uint16_t)play.level);
  wave_shape(&play.wave, play.points, play.step);
  jig_before_start();
  uint32_t first = wave_start(&play.wave);
  reply_ok_begin();
  out_field_u32(TEXT("step"), play.step);
  out_field_u32(TEXT("tick"), first);
  return reply_ok_end();
}

bool obey_limit(void) {
  int32_t peak;
  if (!field_number(TEXT("peak"), 0, BOARD_LEVEL_MAX, &peak)) {
    return false;
  }
  if (wave_now.kind != WAVE_NONE && wave_now.peak > peak) {
    return reply_refuse(ERROR_BUSY, NULL);
  }
  limit_peak = (int16_t)peak;
  reply_ok_begin();
  out_field_s32(TEXT("peak"), peak);
  return reply_ok_end();
}
