/*
 * What the jig keeps without power: its serial number and the id of its calibration.
 *
 * Two copies lie side by side, each with a running number and a checksum. A change is written over the
 * older copy, its number last but for the checksum, so a cut at any byte leaves the newer copy whole:
 * what is read then is either all of the old or all of the new.
 */
#ifndef KEEP_H
#define KEEP_H

#include <stdbool.h>

#define KEEP_ID_MAX 16

struct keep {
  char serial[KEEP_ID_MAX + 1];      /* empty: none */
  char calibration[KEEP_ID_MAX + 1]; /* empty: none */
};

/* Reads the newest whole copy; both ids are empty where there is none. */
void keep_read(struct keep *into);

/* Writes and reads back; false when what was read back differs. */
bool keep_write(const struct keep *from);

#endif
