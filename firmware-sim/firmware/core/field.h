/* The fields of the request at hand. What finds something wrong refuses (reply.h) and gives false. */
#ifndef FIELD_H
#define FIELD_H

#include <stdbool.h>
#include <stdint.h>

#include "text.h"

/* The value, or NULL. */
const char *field_find(flash_text key);
bool field_is_there(flash_text key);
/* The field is not taken with the others given. */
bool field_must_lack(flash_text key);

bool field_text(flash_text key, const char **into);
/* low and high belong to the range. */
bool field_number(flash_text key, int32_t low, int32_t high, int32_t *into);
bool field_power_of_two(flash_text key, int32_t low, int32_t high, uint16_t *into);

#endif
