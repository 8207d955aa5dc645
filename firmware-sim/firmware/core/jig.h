/* The jig as a whole: what runs, when it halts, what it tells by itself, and the main loop's turn. */
#ifndef JIG_H
#define JIG_H

#include <stdbool.h>
#include <stdint.h>

#include "recorder.h"
#include "text.h"

#define JIG_FIRMWARE "0.1.0"
#define JIG_SILENCE_MS 2000

enum lamp_state { LAMP_OFF, LAMP_ON, LAMP_BLINK };

struct jig_counters {
  uint32_t clipped;
  uint32_t damaged;
  uint32_t refused;
  uint32_t overruns;
  uint32_t halts;
};

/* Eight digits: with five counters of more a reply might outgrow its line. */
#define JIG_COUNT_MAX 99999999

extern struct jig_counters jig_counters;

/* Announces the start. */
void jig_start(void);

/* One turn of the main loop. */
void jig_turn(void);

/* While something waits for the port: bytes that come are taken meanwhile. */
void jig_wait(void);

/* Between two lines of one answer: sends what samples wait. */
void jig_between_lines(void);

/* Begins to send what a record gives; the reply to the request has been written before. */
struct jig_record {
  uint8_t id;
  uint8_t digits;
  uint8_t block_frames;
  uint32_t frames;
};
/* The id that the next record will have. */
uint8_t jig_next_record(void);
void jig_record_begun(const struct jig_record *record);
/* 0 when none runs. */
uint8_t jig_recording(void);

/* Wave and record end and the drive rests at mid-scale; an unfinished record is told. */
void jig_rest(void);
/* jig_rest() and "! halted", if anything ran. */
void jig_halt(flash_text cause);

void jig_lamp(uint8_t lamp, enum lamp_state state);
/* A lamp command was accepted: the blinking of a halt ends. */
void jig_lamp_calm(void);
/* The same before a wave or record; clipping is counted afresh if nothing ran. */
void jig_before_start(void);
/* Brings jig_counters.clipped up to now. */
void jig_clipping_gather(void);
void jig_buzz(uint16_t milliseconds);
bool jig_foot_down(void);

void jig_count(uint32_t *counter);

/* Milliseconds as ticks. */
#define JIG_TICKS(ms) ((uint32_t)(((uint64_t)(ms) * BOARD_CLOCK_HZ) / (1000ULL * BOARD_TICK_CYCLES)))

#endif
