/* Reads the files of protocol/vectors. */
#ifndef VECTORS_H
#define VECTORS_H

#include <stddef.h>

/* One case: what stands after "> " and after "= ", and the number of its first line. */
struct vector {
  char given[2000];
  char gives[2000];
  int line;
};

/* Calls each for every case of a file; returns how many there were. */
int vectors_each(const char *file, void (*each)(const struct vector *vector));

/* Puts the bytes for which \xNN stand in their place; returns how many there are then. */
size_t vectors_unescape(char *text);

#endif
