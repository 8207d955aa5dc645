/* Puts the emulated board behind desk.h. */
#ifndef ON_BOARD_H
#define ON_BOARD_H

#include <stdbool.h>

#include "model.h"

bool on_board_load(const char *elf, struct model *world, const char **why);

#endif
