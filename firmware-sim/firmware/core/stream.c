#include "stream.h"

#include "board_config.h"
#include "jig.h"
#include "out.h"
#include "recorder.h"

/*
 * A line may be begun while fewer samples than so many wait, and the queue must hold what comes until it is sent. A block
 * of sums (42 at most) is sent before that many wait, so lines never wait for sums.
 */
#define LINE_BELOW_RAW 16
#define LINE_BELOW_SUMS 50

/* A line of 160 characters and its end are 1610 bits: at 500 000 baud and 15 625 ticks a second 51 undecimated samples. */
#define LINE_TICKS (1610LL * BOARD_CLOCK_HZ / BOARD_BAUD / BOARD_TICK_CYCLES + 1)
/* Whether the link carries it, as obey_record.c reckons: 145 characters for 64 samples, 143 for 42 sums of d. */
#define RAW_IS_CARRIED (145LL * 100 * BOARD_CLOCK_HZ <= 8LL * BOARD_BAUD * 64 * BOARD_TICK_CYCLES)
#define ARE_CARRIED(d) (143LL * 100 * BOARD_CLOCK_HZ <= 8LL * BOARD_BAUD * 42 * BOARD_TICK_CYCLES * (d))
#define OUTGROW(d) (ARE_CARRIED(d) && LINE_BELOW_SUMS + LINE_TICKS / (d) + 1 > RECORDER_QUEUE)
#if BOARD_QUEUE_SAMPLES > 255 || (RAW_IS_CARRIED && LINE_BELOW_RAW + LINE_TICKS > RECORDER_QUEUE) || \
    OUTGROW(2) || OUTGROW(4) || OUTGROW(8) || OUTGROW(16) || OUTGROW(32) || OUTGROW(64)
#error "BOARD_QUEUE_SAMPLES must hold what comes while the longest line is sent: state more, up to 255"
#endif

static struct stream_record record; /* id 0: none is being sent */
static uint8_t last_record;
static uint32_t frames_left;
static uint32_t blocks_sent;

uint8_t stream_next_record(void) { return (uint8_t)(last_record == UINT8_MAX ? 1U : last_record + 1U); }

void stream_begin(const struct stream_record *begun) {
  record = *begun;
  last_record = begun->id;
  frames_left = begun->frames;
  blocks_sent = 0;
}

uint8_t stream_record(void) { return record.id; }

static void sights(flash_text key, bool high) {
  out_key(key);
  for (uint8_t channel = 0; channel < recorder_now.channels; channel++) {
    if (channel > 0) {
      out_char(',');
    }
    const struct recorder_sight *sight = &recorder_now.sight[channel];
    out_u32(high ? sight->high : sight->low);
  }
}

static void tell_recorded(void) {
  uint32_t sent = record.frames - frames_left;
  out_text(TEXT("! recorded"));
  out_field_u32(TEXT("record"), record.id);
  out_field_u32(TEXT("frames"), sent);
  out_field_u32(TEXT("blocks"), blocks_sent);
  out_field_text(TEXT("complete"), frames_left == 0 ? TEXT("yes") : TEXT("no"));
  if (sent > 0) {
    sights(TEXT("low"), false);
    sights(TEXT("high"), true);
  }
  out_end();
  record.id = 0;
}

/* Ends: samples come while the recorder runs, and what an overrun leaves in the queue is a block and more. */
static sample await_sample(void) {
  while (recorder_queued() == 0) {
    jig_wait();
  }
  return recorder_next();
}

static void send_block(uint8_t frames) {
  out_text(TEXT(": "));
  out_hex8(record.id);
  out_char(' ');
  out_hex16((uint16_t)blocks_sent);
  out_char(' ');
  for (uint8_t left = (uint8_t)(frames * recorder_now.channels); left > 0; left--) {
    sample value = await_sample();
    if (record.digits == 3) {
      out_digit64((uint8_t)(value >> 12));
    }
    out_digit64((uint8_t)(value >> 6));
    out_digit64((uint8_t)value);
  }
  out_end();
  blocks_sent++;
  frames_left -= frames;
}

void stream_turn(void) {
  if (record.id == 0) {
    return;
  }
  uint8_t frames = (uint8_t)(frames_left < record.block_frames ? frames_left : record.block_frames);
  uint8_t samples = (uint8_t)(frames * recorder_now.channels);
  uint8_t queued = recorder_queued();
  /* Undecimated samples fill a block in 4 ms, so its sending may run along; sums are waited for. */
  bool ready = record.digits == 2 ? queued > 0 : queued >= samples;
  if (recorder_now.overrun && queued < samples) {
    out_text(TEXT("! overrun"));
    out_field_u32(TEXT("record"), record.id);
    out_end();
    jig_count(&jig_counters.overruns);
    tell_recorded();
  } else if (frames > 0 && ready) {
    send_block(frames);
    if (frames_left == 0) {
      tell_recorded();
    }
  }
}

bool stream_leaves_room(void) {
  return record.id == 0 ||
         recorder_queued() < (record.digits == 2 ? LINE_BELOW_RAW : LINE_BELOW_SUMS);
}

void stream_between_lines(void) {
  while (!stream_leaves_room()) {
    stream_turn();
  }
}

void stream_cease(void) {
  recorder_cease();
  if (record.id != 0) {
    tell_recorded();
  }
}
