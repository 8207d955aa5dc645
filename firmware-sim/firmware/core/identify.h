#ifndef IDENTIFY_H
#define IDENTIFY_H

#include <stdint.h>

/* Sends the details of identify; returns how many. */
uint8_t identify_details(uint16_t tag);

#endif
