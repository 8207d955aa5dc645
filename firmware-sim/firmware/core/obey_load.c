/* load: points of a wave, in base64 (RFC 4648). */
#include "obey.h"

#include <stddef.h>
#include <stdint.h>

#include "board.h"
#include "field.h"
#include "out.h"
#include "reply.h"
#include "wave.h"

#define LOAD_MAX 48

static int8_t digit64(char c) {
  if (c >= 'A' && c <= 'Z') {
    return (int8_t)(c - 'A');
  }
  if (c >= 'a' && c <= 'z') {
    return (int8_t)(c - 'a' + 26);
  }
  if (c >= '0' && c <= '9') {
    return (int8_t)(c - '0' + 52);
  }
  if (c == '+' || c == '/') {
    return c == '+' ? 62 : 63;
  }
  return -1;
}

/* How many bytes base64 holds, or -1 when it is malformed. The value has at most two "=", at its end. */
static int16_t size64(const char *data) {
  uint8_t digits = 0;
  uint8_t pads = 0;
  for (; *data != '\0'; data++) {
    if (*data == '=') {
      pads++;
    } else if (digit64(*data) < 0) {
      return -1;
    } else {
      digits++;
    }
  }
  if ((uint8_t)(digits + pads) % 4U != 0) {
    return -1;
  }
  return (int16_t)(digits * 3U / 4U);
}

/* size64() has looked at the data. */
static void store64(const char *data, uint16_t at, uint8_t count) {
  uint16_t bits = 0;
  uint8_t have = 0;
  while (count > 0) {
    bits = (uint16_t)((uint16_t)(bits << 6) | (uint8_t)digit64(*data++));
    have = (uint8_t)(have + 6U);
    if (have >= 8) {
      have = (uint8_t)(have - 8U);
      int8_t point = (int8_t)(bits >> have);
      wave_points[at++] = point == INT8_MIN ? -INT8_MAX : point;
      count--;
    }
  }
}

bool obey_load(void) {
  int32_t at;
  const char *data;
  if (!field_number(TEXT("at"), 0, BOARD_WAVE_POINTS - 1, &at) || !field_text(TEXT("data"), &data)) {
    return false;
  }
  int16_t count = size64(data);
  if (count < 0) {
    return reply_refuse(ERROR_VALUE_MALFORMED, TEXT("data"));
  }
  if (count > LOAD_MAX) {
    return reply_refuse_range(TEXT("data"), count, 1, LOAD_MAX);
  }
  if (at + count > BOARD_WAVE_POINTS) {
    return reply_refuse_range(TEXT("at"), at, 0, BOARD_WAVE_POINTS - count);
  }
  if (wave_now.kind == WAVE_TABLE) {
    return reply_refuse(ERROR_BUSY, NULL);
  }
  store64(data, (uint16_t)at, (uint8_t)count);
  reply_ok_begin();
  out_field_u32(TEXT("points"), (uint32_t)count);
  return reply_ok_end();
}
