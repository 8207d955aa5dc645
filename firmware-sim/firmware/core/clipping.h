/* Codes at either end of the converter: counted, told, and when they last a reason to halt. */
#ifndef CLIPPING_H
#define CLIPPING_H

#include <stdbool.h>
#include <stdint.h>

/* Brings jig_counters.clipped up to now. */
void clipping_gather(void);

/* Before a first wave or record: what was seen until now does not count against it. */
void clipping_forget(void);

/* Tells clipping, or halts when it lasts; true when something was said. */
bool clipping_watch(uint32_t now);

#endif
