#include "keep.h"

#include <stdint.h>
#include <string.h>

#include "board.h"
#include "crc.h"

/* number, serial, calibration (not ended by NUL), checksum low and high */
#define IDS (2 * KEEP_ID_MAX)
#define COPY_BYTES (1 + IDS + 2)

#if BOARD_KEEP_BYTES != 0 && 2 * COPY_BYTES > BOARD_KEEP_BYTES
#error "this board keeps too few bytes"
#endif

static uint8_t base_of(uint8_t copy) { return (uint8_t)(copy * COPY_BYTES); }

/* Whether a copy is whole; its number into *number. */
static bool whole(uint8_t copy, uint8_t *number) {
  uint8_t base = base_of(copy);
  uint16_t crc = CRC_START;
  for (uint8_t i = 0; i < 1 + IDS; i++) {
    crc = crc_add(crc, board_keep_read((uint8_t)(base + i)));
  }
  crc = crc_finish(crc);
  *number = board_keep_read(base);
  return board_keep_read((uint8_t)(base + 1 + IDS)) == (uint8_t)crc &&
         board_keep_read((uint8_t)(base + 2 + IDS)) == (uint8_t)(crc >> 8);
}

/* The newest whole copy, or -1. Numbers run modulo 256: the newer is ahead by one. */
static int8_t newest(uint8_t *number) {
  uint8_t first = 0;
  uint8_t second = 0;
  bool first_whole = whole(0, &first);
  bool second_whole = whole(1, &second);
  if (first_whole && (!second_whole || (int8_t)(first - second) > 0)) {
    *number = first;
    return 0;
  }
  *number = second;
  return second_whole ? 1 : -1;
}

static void read_id(uint8_t base, char *into) {
  for (uint8_t i = 0; i < KEEP_ID_MAX; i++) {
    into[i] = (char)board_keep_read((uint8_t)(base + i));
  }
  into[KEEP_ID_MAX] = '\0';
}

void keep_read(struct keep *into) {
  uint8_t number;
  int8_t copy = newest(&number);
  memset(into, 0, sizeof *into);
  if (copy >= 0) {
    uint8_t base = base_of((uint8_t)copy);
    read_id((uint8_t)(base + 1), into->serial);
    read_id((uint8_t)(base + 1 + KEEP_ID_MAX), into->calibration);
  }
}

static uint16_t put(uint8_t at, uint8_t value, uint16_t crc) {
  board_keep_write(at, value);
  return crc_add(crc, value);
}

bool keep_write(const struct keep *from) {
  uint8_t number = 0;
  int8_t copy = newest(&number);
  uint8_t base = base_of(copy == 0 ? 1 : 0);
  /* The checksum is broken before anything else changes. */
  board_keep_write((uint8_t)(base + 1 + IDS), (uint8_t)~board_keep_read((uint8_t)(base + 1 + IDS)));
  uint16_t crc = put(base, (uint8_t)(number + 1), CRC_START);
  for (uint8_t i = 0; i < KEEP_ID_MAX; i++) {
    crc = put((uint8_t)(base + 1 + i), (uint8_t)from->serial[i], crc);
  }
  for (uint8_t i = 0; i < KEEP_ID_MAX; i++) {
    crc = put((uint8_t)(base + 1 + KEEP_ID_MAX + i), (uint8_t)from->calibration[i], crc);
  }
  crc = crc_finish(crc);
  board_keep_write((uint8_t)(base + 2 + IDS), (uint8_t)(crc >> 8));
  board_keep_write((uint8_t)(base + 1 + IDS), (uint8_t)crc);
  struct keep back;
  keep_read(&back);
  return memcmp(&back, from, sizeof back) == 0;
}
