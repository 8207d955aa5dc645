#include "request.h"

#include <stddef.h>

#include "crc.h"

#define VALUE_MAX 96
#define NAME_MAX 16

static char line[REQUEST_MAX + 1];
static uint8_t length;
static bool carriage_return;
static enum jig_error damage; /* ERROR_NONE while the line is sound */

static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_lower(char c) { return c >= 'a' && c <= 'z'; }

static int8_t hex_value(char c) {
  if (is_digit(c)) {
    return (int8_t)(c - '0');
  }
  if (c >= 'A' && c <= 'F') {
    return (int8_t)(c - 'A' + 10);
  }
  if (c >= 'a' && c <= 'f') {
    return (int8_t)(c - 'a' + 10);
  }
  return -1;
}

static void add(uint8_t byte) {
  if (damage != ERROR_NONE) {
    return;
  }
  bool printable = byte >= 0x20 && byte <= 0x7E;
  if (carriage_return || (!printable && byte != '\r')) {
    damage = ERROR_LINE_NOT_TEXT;
  } else if (byte == '\r') {
    carriage_return = true;
  } else if (length == REQUEST_MAX) {
    damage = ERROR_LINE_TOO_LONG;
  } else {
    line[length++] = (char)byte;
  }
}

/* Takes " ~hhhh" off the end, if a last word begins with "~". False when it does not match. */
static bool unseal(bool *checked) {
  *checked = false;
  const char *tilde = NULL;
  for (uint8_t i = 0; i < length; i++) {
    if (line[i] == '~') {
      tilde = i == 0 || line[i - 1] == ' ' ? &line[i] : NULL;
    } else if (line[i] == ' ') {
      tilde = NULL; /* not in the last word */
    }
  }
  if (tilde == NULL) {
    return true;
  }
  uint8_t at = (uint8_t)(tilde - line);
  if (at < 2 || length != at + 5U) {
    return false;
  }
  uint16_t given = 0;
  for (uint8_t i = 1; i <= 4; i++) {
    int8_t nibble = hex_value(line[at + i]);
    if (nibble < 0) {
      return false;
    }
    given = (uint16_t)((uint16_t)(given << 4) | (uint8_t)nibble);
  }
  uint16_t crc = CRC_START;
  for (uint8_t i = 0; i + 1U < at; i++) {
    crc = crc_add(crc, (uint8_t)line[i]);
  }
  length = (uint8_t)(at - 1);
  *checked = true;
  return crc_finish(crc) == given;
}

/* Cuts the line into words and takes the tag off its front. */
static void split(struct request *request) {
  line[length] = '\0';
  uint8_t words = 1;
  for (uint8_t i = 0; i < length; i++) {
    if (line[i] == ' ') {
      line[i] = '\0';
      words++;
    }
  }
  uint8_t digits = 0;
  uint16_t tag = 0;
  while (digits < 5 && is_digit(line[digits])) {
    tag = (uint16_t)(tag * 10U + (uint16_t)(line[digits] - '0'));
    digits++;
  }
  bool tagged = digits >= 1 && digits <= 4 && line[digits] == '\0';
  request->tag = tagged ? tag : 0;
  request->words = tagged ? &line[digits + 1] : line;
  request->count = (uint8_t)(tagged ? words - 1 : words);
}

enum request_state request_take(uint8_t byte, struct request *request) {
  if (byte != '\n') {
    add(byte);
    return REQUEST_NONE;
  }
  enum jig_error reason = damage;
  bool empty = length == 0;
  request->checked = false;
  if (reason == ERROR_NONE && !empty && !unseal(&request->checked)) {
    reason = ERROR_LINE_DAMAGED;
  }
  if (reason == ERROR_NONE && !empty) {
    split(request);
  }
  length = 0;
  carriage_return = false;
  damage = ERROR_NONE;
  request->damage = reason;
  if (reason != ERROR_NONE) {
    request->tag = 0;
    return REQUEST_DAMAGED;
  }
  return empty ? REQUEST_NONE : REQUEST_WHOLE;
}

const char *request_after(const char *word) {
  while (*word != '\0') {
    word++;
  }
  return word + 1;
}

static bool is_verb(const char *word) {
  uint8_t n = 0;
  while (is_lower(word[n])) {
    n++;
  }
  return n >= 1 && n <= NAME_MAX && word[n] == '\0';
}

static bool is_field(const char *word) {
  if (!is_lower(*word)) {
    return false;
  }
  uint8_t key = 1;
  while (is_lower(word[key]) || is_digit(word[key]) || word[key] == '_') {
    key++;
  }
  if (key > NAME_MAX || word[key] != '=') {
    return false;
  }
  const char *value = word + key + 1;
  uint8_t size = 0;
  uint8_t pads = 0;
  for (; value[size] != '\0'; size++) {
    if (value[size] == '=') {
      pads++;
    } else if (pads > 0 || value[size] == '~') {
      return false;
    }
  }
  return size > pads && pads <= 2 && size <= VALUE_MAX;
}

bool request_well_formed(const struct request *request) {
  if (request->count == 0 || !is_verb(request->words)) {
    return false;
  }
  const char *word = request->words;
  for (uint8_t i = 1; i < request->count; i++) {
    word = request_after(word);
    if (!is_field(word)) {
      return false;
    }
  }
  return true;
}

bool request_is(const char *string, flash_text text) {
  while (*string != '\0' && *string == flash_char(text)) {
    string++;
    text++;
  }
  return *string == '\0' && flash_char(text) == '\0';
}

const char *request_value(const struct request *request, flash_text key) {
  const char *word = request->words;
  for (uint8_t i = 1; i < request->count; i++) {
    word = request_after(word);
    const char *at = word;
    flash_text k = key;
    while (*at != '=' && *at == flash_char(k)) {
      at++;
      k++;
    }
    if (*at == '=' && flash_char(k) == '\0') {
      return at + 1;
    }
  }
  return NULL;
}

bool request_number(const char *value, bool *negative, uint32_t *magnitude) {
  *negative = *value == '-';
  if (*negative) {
    value++;
  }
  uint32_t number = 0;
  uint8_t digits = 0;
  for (; is_digit(value[digits]); digits++) {
    if (digits == 10) {
      return false;
    }
    uint8_t digit = (uint8_t)(value[digits] - '0');
    number = number > (UINT32_MAX - digit) / 10U ? UINT32_MAX : number * 10U + digit;
  }
  *magnitude = number;
  return digits >= 1 && value[digits] == '\0';
}
