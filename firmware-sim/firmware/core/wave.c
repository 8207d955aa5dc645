#include "wave.h"

#include "text.h"
#include "tick.h"

struct wave wave_now;
int8_t wave_points[BOARD_WAVE_POINTS];

/* round(32512 sin(2 pi k / 256)), k = 0 to 256: one more than a period, for interpolation. */
static const int16_t sine[257] IN_FLASH = {
#include "sine.inc"
};

static int16_t sine_at(const struct wave_place *place) {
  const int16_t *point = &sine[place->point];
  int16_t here = flash_s16(point);
  int16_t next = flash_s16(point + 1);
  /* Neighbouring points of the sine differ by at most 798: the product stays below 2^18. */
  return (int16_t)(here + (int16_t)(((int32_t)(int16_t)(next - here) * (uint8_t)(place->fraction >> 24)) >> 8));
}

static int16_t table_at(const struct wave *w) {
  uint16_t index = w->place.point;
  int16_t here = wave_points[index];
  int16_t next = wave_points[index == w->last ? 0 : index + 1U];
  /* 254 x 65535 < 2^24. */
  int32_t slope = (int32_t)(int16_t)(next - here) * (uint16_t)(w->place.fraction >> 16);
  return (int16_t)(here * 256 + (int16_t)(slope >> 8));
}

static void move_on(struct wave *w) {
  uint32_t fraction = w->place.fraction + w->step.fraction;
  uint16_t carry = fraction < w->step.fraction ? 1 : 0;
  w->place.fraction = fraction;
  w->place.point = (uint16_t)(w->place.point + w->step.point + carry) & w->last;
}

int16_t wave_next(void) {
  struct wave *w = &wave_now;
  int16_t value;
  switch (w->kind) {
    case WAVE_TONE:
      value = sine_at(&w->place);
      break;
    case WAVE_TABLE:
      value = table_at(w);
      break;
    case WAVE_DC:
      return w->dc;
    default:
      return 0;
  }
  move_on(w);
  /* value x gain: 32512 x 1030 < 2^25; half is added so that the shift rounds to nearest. */
  int32_t scaled = (int32_t)value * (int16_t)w->gain;
  return (int16_t)(w->dc + (int16_t)((scaled + 0x8000) >> 16));
}

void wave_shape(struct wave *wave, uint16_t points, uint32_t step) {
  uint64_t product = (uint64_t)step * points; /* < 2^42 */
  wave->step.fraction = (uint32_t)product;
  wave->step.point = (uint16_t)(product >> 32);
  wave->last = (uint16_t)(points - 1U);
}

uint16_t wave_gain(uint16_t level) {
  return (uint16_t)((((uint32_t)level << 16) + WAVE_FULL / 2) / WAVE_FULL);
}

uint32_t wave_start(const struct wave *wave) {
  board_hold();
  wave_now = *wave;
  wave_now.place = (struct wave_place){0, 0};
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
