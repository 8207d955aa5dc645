/* record and stop. */
#include "obey.h"

#include <stddef.h>
#include <stdint.h>

#include "board.h"
#include "field.h"
#include "jig.h"
#include "limits.h"
#include "out.h"
#include "recorder.h"
#include "reply.h"
#include "stream.h"

#define BLOCK_CHARACTERS 128
/* ": ii ssss " before the data, " ~hhhh" and the line end after it. */
#define BLOCK_OVERHEAD 17

/* Specification, section 8: what full blocks take, rounded up, against four fifths of the link. */
static bool link_carries(uint8_t channels, uint8_t digits, uint16_t interval, uint8_t block_frames) {
  uint32_t characters = BLOCK_OVERHEAD + (uint32_t)block_frames * channels * digits;
  uint64_t ticks = (uint64_t)BOARD_TICK_CYCLES * interval * block_frames;
  uint32_t needs = (uint32_t)((BOARD_CLOCK_HZ * (uint64_t)characters + ticks - 1) / ticks);
  const uint32_t link_has = (uint32_t)(BOARD_BAUD * 8ULL / 100);
  if (needs > link_has) {
    return reply_refuse_beyond(ERROR_LINK_TOO_SLOW, (int32_t)needs, (int32_t)link_has);
  }
  return true;
}

bool obey_record(void) {
  int32_t channels;
  int32_t frames;
  int32_t skip;
  uint16_t decimate;
  if (!field_number(TEXT("channels"), 2, BOARD_CHANNELS, &channels) ||
      !field_number(TEXT("frames"), 1, BOARD_FRAMES_MAX, &frames) ||
      !field_number(TEXT("skip"), 0, BOARD_SKIP_MAX, &skip) ||
      !field_power_of_two(TEXT("decimate"), 1, BOARD_DECIMATE_MAX, &decimate)) {
    return false;
  }
  if (stream_record() != 0) {
    return reply_refuse(ERROR_BUSY, NULL);
  }
  const uint8_t digits = decimate == 1 ? 2 : 3;
  const uint16_t interval = (uint16_t)(decimate * (uint16_t)channels);
  const uint8_t block_frames = (uint8_t)(BLOCK_CHARACTERS / ((uint16_t)channels * digits));
  if (!link_carries((uint8_t)channels, digits, interval, block_frames)) {
    return false;
  }
  const struct recorder_order order = {(uint8_t)channels, (decimation)decimate, (uint32_t)frames,
                                       (uint32_t)skip};
  const struct stream_record record = {stream_next_record(), digits, block_frames, (uint32_t)frames};
  jig_before_start();
  uint32_t first = recorder_begin(&order);
  reply_ok_begin();
  out_field_u32(TEXT("record"), record.id);
  out_field_u32(TEXT("first_tick"), first);
  out_field_u32(TEXT("interval_ticks"), interval);
  out_field_u32(TEXT("block_frames"), block_frames);
  out_field_u32(TEXT("digits"), digits);
  reply_ok_end();
  stream_begin(&record);
  return true;
}

bool obey_stop(void) {
  jig_rest();
  return reply_ok();
}
