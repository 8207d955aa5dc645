/*
 * The core on the development machine: the reference jig of protocol/vectors/README.md, whose limits are
 * wider than those of the ATmega328P. With DESK_BARE a board that differs where a board may: nothing fitted, nothing kept, two
 * channels, a finer converter, a coarser drive, slower ticks and a link too slow for raw samples.
 */
#ifndef BOARD_CONFIG_H
#define BOARD_CONFIG_H

#ifdef DESK_BARE

#define BOARD_NAME "desk-bare"
#define BOARD_CLOCK_HZ 8000000
#define BOARD_TICK_CYCLES 1600
#define BOARD_CONVERTER_BITS 12
#define BOARD_CODES 4096
#define BOARD_CHANNELS 2
#define BOARD_FRAMES_MAX 200000
#define BOARD_SKIP_MAX 100000
#define BOARD_DECIMATE_MAX 64
#define BOARD_CHANNEL_0 "name=voltage unit=V offset_code=2048 per_code=4.069e-4 delay_ns=0"
#define BOARD_CHANNEL_1 "name=current unit=A offset_code=2048 per_code=4.069e-5 delay_ns=200000"
#define BOARD_LEVEL_MAX 127
#define BOARD_VOLT_PER_LEVEL "6.3e-3"
#define BOARD_SOURCE_OHM "10"
#define BOARD_WAVE_POINTS 256
#define BOARD_BAUD 115200
#define BOARD_HAS_FOOT 0
#define BOARD_HAS_LAMPS 0
#define BOARD_HAS_BUZZER 0
#define BOARD_KEEP_BYTES 0
#define BOARD_QUEUE_SAMPLES 96
#define BOARD_DRIVE_DELAY_TICKS 1

#else

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
#define BOARD_HAS_FOOT 1
#define BOARD_HAS_LAMPS 1
#define BOARD_HAS_BUZZER 1
#define BOARD_KEEP_BYTES 128
#define BOARD_QUEUE_SAMPLES 78
#define BOARD_DRIVE_DELAY_TICKS 1

#endif

#endif
