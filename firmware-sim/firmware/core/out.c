#include "out.h"

#include "board.h"
#include "crc.h"
#include "jig.h"

static uint16_t line_crc = CRC_START;

static void put(char c) {
  /* Once at least: a byte may come for each that goes. */
  do {
    if (board_serial_coming()) {
      jig_wait();
    }
  } while (!board_serial_ready());
  board_serial_put(c);
}

void out_char(char c) {
  line_crc = crc_add(line_crc, (uint8_t)c);
  put(c);
}

void out_text(flash_text text) {
  for (char c = flash_char(text); c != '\0'; c = flash_char(++text)) {
    out_char(c);
  }
}

void out_string(const char *string) {
  while (*string != '\0') {
    out_char(*string++);
  }
}

static const uint32_t powers[] IN_FLASH = {1000000000, 100000000, 10000000, 1000000, 100000,
                                           10000,      1000,      100,      10};

/* By taking away powers of ten: an 8-bit processor divides slowly, and the first digit leaves at once. */
void out_u32(uint32_t value) {
  bool begun = false;
  for (uint8_t i = 0; i < sizeof powers / sizeof powers[0]; i++) {
    const uint32_t power = flash_u32(&powers[i]);
    char digit = '0';
    while (value >= power) {
      value -= power;
      digit++;
    }
    begun = begun || digit != '0';
    if (begun) {
      out_char(digit);
    }
  }
  out_char((char)('0' + value));
}

void out_s32(int32_t value) {
  if (value < 0) {
    out_char('-');
    out_u32(0U - (uint32_t)value);
  } else {
    out_u32((uint32_t)value);
  }
}

static char hex_digit(uint8_t nibble) {
  nibble &= 0x0FU;
  return (char)(nibble < 10 ? '0' + nibble : 'A' + nibble - 10);
}

void out_hex8(uint8_t value) {
  out_char(hex_digit(value >> 4));
  out_char(hex_digit(value));
}

void out_hex16(uint16_t value) {
  out_hex8((uint8_t)(value >> 8));
  out_hex8((uint8_t)value);
}

/* RFC 4648, table 1. */
static const char digits64[] IN_FLASH = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

void out_digit64(uint8_t value) { out_char(flash_char(&digits64[value & 0x3FU])); }

void out_key(flash_text key) {
  out_char(' ');
  out_text(key);
  out_char('=');
}

void out_field_u32(flash_text key, uint32_t value) {
  out_key(key);
  out_u32(value);
}

void out_field_s32(flash_text key, int32_t value) {
  out_key(key);
  out_s32(value);
}

void out_field_text(flash_text key, flash_text value) {
  out_key(key);
  out_text(value);
}

void out_empty_line(void) { put('\n'); }

void out_end(void) {
  uint16_t crc = crc_finish(line_crc);
  put(' ');
  put('~');
  for (int8_t shift = 12; shift >= 0; shift = (int8_t)(shift - 4)) {
    put(hex_digit((uint8_t)(crc >> shift)));
  }
  put('\n');
  line_crc = CRC_START;
}
