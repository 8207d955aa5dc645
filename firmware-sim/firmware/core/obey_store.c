/* store: what is kept without power. */
#include "obey.h"

#include <stddef.h>
#include <string.h>

#include "field.h"
#include "keep.h"
#include "reply.h"
#include "request.h"
#include "stream.h"
#include "wave.h"

static bool is_id(const char *value) {
  uint8_t size = 0;
  for (; value[size] != '\0'; size++) {
    char c = value[size];
    bool allowed = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                   c == '-';
    if (!allowed) {
      return false;
    }
  }
  return size <= KEEP_ID_MAX;
}

bool obey_store(void) {
  bool serial = field_is_there(TEXT("serial")) || !field_is_there(TEXT("calibration"));
  flash_text key = serial ? TEXT("serial") : TEXT("calibration");
  const char *id;
  if (!field_text(key, &id)) {
    return false;
  }
  if (!is_id(id)) {
    return reply_refuse(ERROR_VALUE_MALFORMED, key);
  }
  if (serial && !field_must_lack(TEXT("calibration"))) {
    return false;
  }
  if (wave_now.kind != WAVE_NONE || stream_record() != 0) {
    return reply_refuse(ERROR_BUSY, NULL);
  }
  struct keep keep;
  keep_read(&keep);
  char *place = serial ? keep.serial : keep.calibration;
  memset(place, 0, KEEP_ID_MAX + 1);
  if (!request_is(id, TEXT("none"))) {
    strncpy(place, id, KEEP_ID_MAX);
  }
  if (!keep_write(&keep)) {
    return reply_refuse(ERROR_STORE_FAILED, NULL);
  }
  return reply_ok();
}
