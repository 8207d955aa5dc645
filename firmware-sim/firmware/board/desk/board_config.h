/*
 * The core on the development machine: the reference jig of protocol/vectors/README.md, whose limits are
 * wider than those of the ATmega328P.
 */
#ifndef BOARD_CONFIG_H
#define BOARD_CONFIG_H

#define BOARD_NAME "desk"
#define BOARD_CLOCK_HZ 16000000
#define BOARD_TICK_CYCLES 1024
#define BOARD_CONVERTER_BITS 10
#define BOARD_CODES 1024
#define BOARD_CHANNELS 3
#define BOARD_FRAMES_MAX 1000000
#define BOARD_SKIP_MAX 1000000
#define BOARD_DECIMATE_MAX 256
#define BOARD_CHANNEL_0 "name=voltage unit=V offset_code=511.5 per_code=-0.0048828125 delay_ns=0"
#define BOARD_CHANNEL_1 "name=current unit=A offset_code=511.5 per_code=1.6276e-4 delay_ns=64000"
#define BOARD_CHANNEL_2 "name=microphone unit=V offset_code=512 per_code=4.8828125e-3 delay_ns=128000"
#define BOARD_LEVEL_MAX 511
#define BOARD_VOLT_PER_LEVEL "0.0078125"
#define BOARD_SOURCE_OHM "10"
#define BOARD_WAVE_POINTS 1024
#define BOARD_BAUD 500000
#define BOARD_FITTED "foot=1 lamps=1 buzzer=1"
#define BOARD_HAS_LAMPS 1
#define BOARD_HAS_BUZZER 1
#define BOARD_KEEP_BYTES 128
#define BOARD_DRIVE_DELAY_TICKS 1

#endif
