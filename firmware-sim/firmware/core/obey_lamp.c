/* lamp and buzz. */
#include "obey.h"

#include <stddef.h>
#include <stdint.h>

#include "board.h"
#include "field.h"
#include "panel.h"
#include "reply.h"
#include "request.h"

bool obey_lamp(void) {
  const char *name;
  const char *state;
  if (!field_text(TEXT("name"), &name)) {
    return false;
  }
  uint8_t lamp = 0;
  if (request_is(name, TEXT("pass"))) {
    lamp = LAMP_PASS;
  } else if (request_is(name, TEXT("fail"))) {
    lamp = LAMP_FAIL;
  } else if (request_is(name, TEXT("busy"))) {
    lamp = LAMP_BUSY;
  } else {
    return reply_refuse(ERROR_VALUE_MALFORMED, TEXT("name"));
  }
  if (!field_text(TEXT("state"), &state)) {
    return false;
  }
  enum lamp_state wanted;
  if (request_is(state, TEXT("on"))) {
    wanted = LAMP_ON;
  } else if (request_is(state, TEXT("off"))) {
    wanted = LAMP_OFF;
  } else if (request_is(state, TEXT("blink"))) {
    wanted = LAMP_BLINK;
  } else {
    return reply_refuse(ERROR_VALUE_MALFORMED, TEXT("state"));
  }
  if (!BOARD_HAS_LAMPS) {
    return reply_refuse(ERROR_NOT_FITTED, NULL);
  }
  panel_calm();
  panel_lamp(lamp, wanted);
  return reply_ok();
}

bool obey_buzz(void) {
  int32_t milliseconds;
  if (!field_number(TEXT("milliseconds"), 1, 2000, &milliseconds)) {
    return false;
  }
  if (!BOARD_HAS_BUZZER) {
    return reply_refuse(ERROR_NOT_FITTED, NULL);
  }
  panel_buzz((uint16_t)milliseconds);
  return reply_ok();
}
