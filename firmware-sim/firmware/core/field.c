#include "field.h"

#include <stddef.h>

#include "reply.h"

const char *field_find(flash_text key) { return request_value(reply_asked, key); }

bool field_is_there(flash_text key) { return field_find(key) != NULL; }

bool field_must_lack(flash_text key) {
  return field_is_there(key) ? reply_refuse(ERROR_FIELD_UNKNOWN, key) : true;
}

bool field_text(flash_text key, const char **into) {
  *into = field_find(key);
  return *into != NULL ? true : reply_refuse(ERROR_FIELD_MISSING, key);
}

bool field_number(flash_text key, int32_t low, int32_t high, int32_t *into) {
  const char *value;
  bool negative;
  uint32_t magnitude;
  if (!field_text(key, &value)) {
    return false;
  }
  if (!request_number(value, &negative, &magnitude)) {
    return reply_refuse(ERROR_VALUE_MALFORMED, key);
  }
  if (magnitude > INT32_MAX) {
    return reply_refuse_given(key, value, low, high);
  }
  *into = negative ? -(int32_t)magnitude : (int32_t)magnitude;
  if (*into < low || *into > high) {
    return reply_refuse_given(key, value, low, high);
  }
  return true;
}

bool field_power_of_two(flash_text key, int32_t low, int32_t high, uint16_t *into) {
  int32_t value;
  if (!field_number(key, low, high, &value)) {
    return false;
  }
  if ((value & (value - 1)) != 0) {
    return reply_refuse(ERROR_VALUE_MALFORMED, key);
  }
  *into = (uint16_t)value;
  return true;
}
