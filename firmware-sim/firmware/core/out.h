/* Writes lines to the host, with their checksum. One line at a time; each call waits for the port. */
#ifndef OUT_H
#define OUT_H

#include <stdbool.h>
#include <stdint.h>

#include "text.h"

void out_char(char c);
void out_text(flash_text text);
/* The characters up to a NUL in ordinary memory. */
void out_string(const char *string);
void out_u32(uint32_t value);
void out_s32(int32_t value);
void out_hex16(uint16_t value);
void out_hex8(uint8_t value);
/* The base64 digit of the six low bits. */
void out_digit64(uint8_t value);

/* " key=value" */
void out_key(flash_text key);
void out_field_u32(flash_text key, uint32_t value);
void out_field_s32(flash_text key, int32_t value);
void out_field_text(flash_text key, flash_text value);

/* A line end alone: ends what an earlier run left half sent. */
void out_empty_line(void);

/* " ~hhhh" and the line end; the next character starts a new line. */
void out_end(void);

#endif
