/* Sends what a record gives, block by block, between the other lines that the jig sends. */
#ifndef STREAM_H
#define STREAM_H

#include <stdbool.h>
#include <stdint.h>

struct stream_record {
  uint8_t id;
  uint8_t digits;
  uint8_t block_frames;
  uint32_t frames;
};

/* The id that the next record will have. */
uint8_t stream_next_record(void);
/* Begins to send; the reply to the request has been written before. */
void stream_begin(const struct stream_record *record);
/* The id of the record that is being sent, 0 when none is. */
uint8_t stream_record(void);

/* Sends a block if one can be sent without holding up commands for long. */
void stream_turn(void);
/* Whether a line may be begun without the queue of samples filling up meanwhile. */
bool stream_leaves_room(void);
/* Between two lines of one answer: sends what samples wait. */
void stream_between_lines(void);

/* No more samples are taken; an unfinished record ends and is told. */
void stream_cease(void);

#endif
