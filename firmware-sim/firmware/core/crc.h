/* CRC-16/X-25: polynomial 0x1021 reflected, start 0xFFFF, inverted at the end. */
#ifndef CRC_H
#define CRC_H

#include <stdint.h>

#define CRC_START 0xFFFFU

/*
 * The register after one more byte. Without a table, and inline because each character sent passes here. With q
 * the byte xored with the low half of the register, the polynomial's taps (reflected: bits 15, 10 and 3 below a
 * shift by 8) act on q after q has been folded onto itself by four bits; it follows from dividing by the
 * polynomial eight bits at a time.
 */
static inline uint16_t crc_add(uint16_t crc, uint8_t byte) {
  uint8_t q = (uint8_t)(byte ^ (uint8_t)crc);
  q = (uint8_t)(q ^ (uint8_t)(q << 4));
  uint16_t high = (uint16_t)((uint16_t)q << 8);
  uint16_t middle = (uint16_t)((uint16_t)q << 3);
  return (uint16_t)((crc >> 8) ^ high ^ middle ^ (q >> 4));
}

/* The checksum that a register stands for. */
static inline uint16_t crc_finish(uint16_t crc) { return (uint16_t)~crc; }

#endif
