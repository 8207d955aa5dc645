/*
 * What a board gives to the core, and the one interrupt that it calls in return.
 *
 * A port to another board is one folder beside this file: it implements these functions, defines the
 * constants in its own board_config.h, and calls tick_take() and tick_drive() once a tick (tick.h). docs/porting.md
 * goes through it step by step.
 */
#ifndef BOARD_H
#define BOARD_H

#include <stdbool.h>
#include <stdint.h>

#include "board_config.h"

/* Why the processor started. */
enum board_cause { CAUSE_POWER, CAUSE_RESET, CAUSE_BROWN_OUT, CAUSE_WATCHDOG };

enum board_lamp { LAMP_PASS = 1, LAMP_FAIL = 2, LAMP_BUSY = 4 };

/* Called once, first. Sets up ports, converter, serial port, watchdog and the tick; interrupts are on afterwards. */
void board_start(void);
enum board_cause board_start_cause(void);

/* Called once in every turn of the main loop in which ticks have moved on: feeds the watchdog, which so
 * bites when the main loop hangs and when the tick stands still. */
void board_alive(void);

/* Called in each turn of the main loop and while a sample is awaited. Nothing need be done here. */
#ifndef board_wait
void board_wait(void);
#endif

/* True when board_serial_put() would not wait; the core asks until it is, and puts only then. */
bool board_serial_ready(void);
void board_serial_put(char c);
/* Whether a byte has come. The board keeps 15 at least until they are asked for. */
bool board_serial_coming(void);
/* The next byte that came, or -1. Where bytes were lost or damaged a zero stands in their place: it is
 * a foreign byte, so exactly the line that it hit is refused. */
int16_t board_serial_get(void);

/* What follows is written only by a board that has it, as its board_config.h says. */

#if BOARD_HAS_LAMPS
void board_lamps_write(uint8_t lit); /* an or of board_lamp; called in every turn of the main loop */
#else
static inline void board_lamps_write(uint8_t lit) { (void)lit; }
#endif

#if BOARD_HAS_BUZZER
void board_buzzer_write(bool on);
#else
static inline void board_buzzer_write(bool on) { (void)on; }
#endif

#if BOARD_HAS_FOOT
bool board_foot_down(void); /* as the contact stands now, bounces included */
#else
static inline bool board_foot_down(void) { return false; }
#endif

/* Memory that lasts without power, BOARD_KEEP_BYTES of it. Writing may take as long as it must: nothing plays or is
 * recorded meanwhile, and a host sends nothing. */
#if BOARD_KEEP_BYTES > 0
uint8_t board_keep_read(uint8_t at);
void board_keep_write(uint8_t at, uint8_t value);
#else
static inline uint8_t board_keep_read(uint8_t at) { (void)at; return UINT8_MAX; }
static inline void board_keep_write(uint8_t at, uint8_t value) { (void)at, (void)value; }
#endif

/* Nothing of the tick interrupt runs between these two, and no access to memory is moved out of there; not nested. */
void board_hold(void);
void board_release(void);

#endif
