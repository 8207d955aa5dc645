#include "crc.h"

/*
 * A byte at a time without a table. With q the byte xored with the low half of the register, the
 * polynomial's taps (reflected: bits 15, 10 and 3 below a shift by 8) act on q after q has been folded
 * onto itself by four bits; see any derivation of table-less CRC by polynomial division.
 */
uint16_t crc_add(uint16_t crc, uint8_t byte) {
  uint8_t q = (uint8_t)(byte ^ (uint8_t)crc);
  q = (uint8_t)(q ^ (uint8_t)(q << 4));
  uint16_t high = (uint16_t)((uint16_t)q << 8);
  uint16_t middle = (uint16_t)((uint16_t)q << 3);
  return (uint16_t)((crc >> 8) ^ high ^ middle ^ (q >> 4));
}
