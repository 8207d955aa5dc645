/* Foot switch, lamps and buzzer. */
#ifndef PANEL_H
#define PANEL_H

#include <stdbool.h>
#include <stdint.h>

enum lamp_state { LAMP_OFF, LAMP_ON, LAMP_BLINK };

/* lamp: of enum board_lamp. */
void panel_lamp(uint8_t lamp, enum lamp_state state);
void panel_buzz(uint16_t milliseconds);

/* The busy lamp blinks, whatever else it is told, until panel_calm(). */
void panel_show_halt(void);
void panel_calm(void);

/* Once a turn: puts lamps and buzzer as they must be now. */
void panel_show(uint32_t now);

/* As it was told last, debounced. */
bool panel_foot_down(void);
/* Tells a change of the foot switch; true when something was said. */
bool panel_watch_foot(uint32_t now);

#endif
