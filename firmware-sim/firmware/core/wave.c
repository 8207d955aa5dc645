#include "wave.h"

#include "text.h"
#include "tick.h"

volatile struct wave wave_now;
int8_t wave_points[BOARD_WAVE_POINTS];

/* round(32512 sin(2 pi k / 256)), k = 0 to 256: one more than a period, for interpolation. */
static const int16_t sine[257] IN_FLASH = {
#include "sine.inc"
};

static int16_t interpolate(int16_t here, int16_t next, uint8_t fraction) {
  /* Neighbouring points of the sine differ by at most 798: the product stays below 2^18. */
  return (int16_t)(here + (int16_t)(((int32_t)(next - here) * fraction) >> 8));
}

static int16_t sine_at(uint32_t phase) {
  const int16_t *point = &sine[(uint8_t)(phase >> 24)];
  return interpolate(flash_s16(point), flash_s16(point + 1), (uint8_t)(phase >> 16));
}

static int16_t table_at(uint32_t phase, uint8_t shift) {
  /* The upper bits of the phase are the index of a point, the 16 below them the fraction. */
  uint16_t high = (uint16_t)(phase >> 16);
  uint16_t index = (uint16_t)(high >> shift);
  uint16_t fraction =
      (uint16_t)((uint16_t)(high << (16 - shift)) | (uint16_t)((uint16_t)phase >> shift));
  uint16_t last = (uint16_t)(0xFFFFU >> shift);
  int16_t here = wave_points[index];
  int16_t next = wave_points[index == last ? 0 : index + 1];
  /* 254 x 65535 < 2^24. */
  int32_t slope = (int32_t)(next - here) * (int32_t)fraction;
  return (int16_t)(here * 256 + (int16_t)(slope >> 8));
}

int16_t wave_next(void) {
  volatile struct wave *w = &wave_now;
  int16_t value;
  switch (w->kind) {
    case WAVE_TONE:
      value = sine_at(w->phase);
      break;
    case WAVE_TABLE:
      value = table_at(w->phase, w->shift);
      break;
    case WAVE_DC:
      return w->dc;
    default:
      return 0;
  }
  w->phase += w->step;
  /* value x gain: 32512 x 1030 < 2^25; half is added so that the shift rounds to nearest. */
  int32_t scaled = (int32_t)value * (int16_t)w->gain;
  return (int16_t)(w->dc + (int16_t)((scaled + 0x8000) >> 16));
}

uint16_t wave_gain(uint16_t level) {
  return (uint16_t)((((uint32_t)level << 16) + WAVE_FULL / 2) / WAVE_FULL);
}

uint32_t wave_start(const struct wave *wave) {
  board_hold();
  wave_now = *wave;
  wave_now.phase = 0;
  uint32_t first = tick_now + 1 + BOARD_DRIVE_DELAY_TICKS;
  board_release();
  return first;
}

void wave_stop(void) {
  board_hold();
  wave_now.kind = WAVE_NONE;
  wave_now.peak = 0;
  board_release();
}
