/* CRC-16/X-25: polynomial 0x1021 reflected, start 0xFFFF, inverted at the end. */
#ifndef CRC_H
#define CRC_H

#include <stdint.h>

#define CRC_START 0xFFFFU

/* The register after one more byte. */
uint16_t crc_add(uint16_t crc, uint8_t byte);

/* The checksum that a register stands for. */
static inline uint16_t crc_finish(uint16_t crc) { return (uint16_t)~crc; }

#endif
