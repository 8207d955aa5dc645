/* Constant text that lives in program memory where a board keeps it apart (BOARD_FLASH_TEXT). */
#ifndef TEXT_H
#define TEXT_H

#include <stdint.h>

#include "board_config.h"

#ifdef BOARD_FLASH_TEXT
#include <avr/pgmspace.h>
#define TEXT(literal) PSTR(literal)
#define IN_FLASH PROGMEM
#define flash_char(p) ((char)pgm_read_byte(p))
#define flash_s16(p) ((int16_t)pgm_read_word(p))
#define flash_u32(p) ((uint32_t)pgm_read_dword(p))
#define flash_pointer(p) ((const void *)pgm_read_ptr(p))
#define flash_function(p) (pgm_read_ptr(p))
#else
#define TEXT(literal) (literal)
#define IN_FLASH
#define flash_char(p) (*(p))
#define flash_s16(p) (*(p))
#define flash_u32(p) (*(p))
#define flash_pointer(p) ((const void *)*(p))
#define flash_function(p) (*(p))
#endif

/* A pointer to text in program memory: read it with flash_char() alone. */
typedef const char *flash_text;

#endif
