#include "out.h"

#include "board.h"
#include "crc.h"
#include "jig.h"

static uint16_t line_crc = CRC_START;

static void put(char c) {
  while (!board_serial_ready()) {
    jig_wait();
  }
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

/* 2^32 has ten digits. */
void out_u32(uint32_t value) {
  char digits[10];
  uint8_t count = 0;
  do {
    digits[count++] = (char)('0' + value % 10U);
    value /= 10U;
  } while (value != 0);
  while (count > 0) {
    out_char(digits[--count]);
  }
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
void out_digit64(uint8_t value) {
  value &= 0x3FU;
  char c;
  if (value < 26) {
    c = (char)('A' + value);
  } else if (value < 52) {
    c = (char)('a' + value - 26);
  } else if (value < 62) {
    c = (char)('0' + value - 52);
  } else {
    c = value == 62 ? '+' : '/';
  }
  out_char(c);
}

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
