/* identify: what the jig says of itself. */
#include "obey.h"

#include <stdint.h>

#include "board.h"
#include "jig.h"
#include "keep.h"
#include "out.h"
#include "reply.h"
#include "stream.h"

#define STRING_OF(x) #x
#define AS_TEXT(x) STRING_OF(x)

static const char clock[] IN_FLASH =
    "clock clock_hz=" AS_TEXT(BOARD_CLOCK_HZ) " tick_cycles=" AS_TEXT(BOARD_TICK_CYCLES);
static const char converter[] IN_FLASH =
    "converter bits=" AS_TEXT(BOARD_CONVERTER_BITS) " codes=" AS_TEXT(BOARD_CODES);
static const char channel_0[] IN_FLASH = "channel number=0 " BOARD_CHANNEL_0;
static const char channel_1[] IN_FLASH = "channel number=1 " BOARD_CHANNEL_1;
#if BOARD_CHANNELS > 2
static const char channel_2[] IN_FLASH = "channel number=2 " BOARD_CHANNEL_2;
#endif
static const char drive[] IN_FLASH =
    "drive level_max=" AS_TEXT(BOARD_LEVEL_MAX) " volt_per_level=" BOARD_VOLT_PER_LEVEL
    " source_ohm=" BOARD_SOURCE_OHM;
static const char wave[] IN_FLASH = "wave points_max=" AS_TEXT(BOARD_WAVE_POINTS) " point_bits=8";
static const char record[] IN_FLASH =
    "record channels_max=" AS_TEXT(BOARD_CHANNELS) " frames_max=" AS_TEXT(BOARD_FRAMES_MAX)
    " skip_max=" AS_TEXT(BOARD_SKIP_MAX) " decimate_max=" AS_TEXT(BOARD_DECIMATE_MAX);
static const char link[] IN_FLASH =
    "link baud=" AS_TEXT(BOARD_BAUD) " request_max=120 line_max=160 silence_ms=" AS_TEXT(
        JIG_SILENCE_MS);
static const char fitted[] IN_FLASH = "fitted foot=" AS_TEXT(BOARD_HAS_FOOT) " lamps=" AS_TEXT(
    BOARD_HAS_LAMPS) " buzzer=" AS_TEXT(BOARD_HAS_BUZZER);

static const char *const details[] IN_FLASH = {clock, converter, channel_0, channel_1,
#if BOARD_CHANNELS > 2
                                               channel_2,
#endif
                                               drive, wave,      record,    link,      fitted};

static void begin(void) {
  out_u32(reply_asked->tag);
  out_text(TEXT(" + "));
}

static void id(flash_text key, const char *value) {
  out_key(key);
  if (*value == '\0') {
    out_text(TEXT("none"));
  } else {
    out_string(value);
  }
}

static void tell_jig(void) {
  struct keep keep;
  keep_read(&keep);
  begin();
  out_text(TEXT("jig protocol=1 firmware=" JIG_FIRMWARE " board=" BOARD_NAME));
  id(TEXT("serial"), keep.serial);
  id(TEXT("calibration"), keep.calibration);
  out_end();
}

bool obey_identify(void) {
  tell_jig();
  const uint8_t count = sizeof details / sizeof details[0];
  for (uint8_t i = 0; i < count; i++) {
    stream_between_lines();
    begin();
    out_text((flash_text)flash_pointer(&details[i]));
    out_end();
  }
  reply_ok_begin();
  out_field_u32(TEXT("lines"), count + 1U);
  return reply_ok_end();
}
