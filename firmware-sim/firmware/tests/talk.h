/* The host's side of a talk with the desk. */
#ifndef TALK_H
#define TALK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "desk.h"

#define LINE_MAX_JIG 160

/* The folder that main() was given. */
extern const char *vectors_folder;

/* CRC-16/X-25 bit by bit, as its definition reads: not the core's code. */
uint16_t talk_crc(const char *bytes, size_t count);

/* Power comes, and "! ready" is read. */
void talk_begin(void);

/* Sends a line with its checksum; printf form. */
void talk_say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* The next line without its checksum, which has been found right; NULL if none comes in time. */
const char *talk_line(uint32_t milliseconds);

/* Says and gives the terminal reply without its checksum, "" if none comes within a second. What comes
 * before it is given to talk_aside, where that is set. */
const char *talk_ask(const char *format, ...) __attribute__((format(printf, 1, 2)));
extern void (*talk_aside)(const char *line);

/* The number of a field, or -1. */
int64_t talk_number(const char *line, const char *key);
bool talk_begins(const char *line, const char *with);

/* A repeatable sequence of numbers (xorshift). */
uint32_t talk_random(void);
void talk_seed(uint32_t seed);

/* The value of a base64 digit. */
int talk_digit64(char c);

#endif
