/* A 5 V, 16 MHz ATmega328P board. Sections: data sheet of the ATmega48A/PA/88A/PA/168A/PA/328/P. */
#ifndef BOARD_CONFIG_H
#define BOARD_CONFIG_H

#define BOARD_FLASH_TEXT 1

#define BOARD_NAME "atmega328p-5v"
#define BOARD_CLOCK_HZ 16000000
#define BOARD_TICK_CYCLES 1024
#define BOARD_CONVERTER_BITS 10
#define BOARD_CODES 1024
#define BOARD_CHANNELS 3
/* 524 288 frames are 67 s of undecimated pairs; 64 x 1023 fits 16 bits. */
#define BOARD_FRAMES_MAX 524288
#define BOARD_SKIP_MAX 524288
#define BOARD_DECIMATE_MAX 64
/* 5 V / 1024 / gain 3; for the current again / 10 ohm. One conversion a tick of 64 us. */
#define BOARD_CHANNEL_0 "name=voltage unit=V offset_code=512 per_code=1.6276e-3 delay_ns=0"
#define BOARD_CHANNEL_1 "name=current unit=A offset_code=512 per_code=1.6276e-4 delay_ns=64000"
#define BOARD_CHANNEL_2 "name=microphone unit=V offset_code=512 per_code=4.8828e-3 delay_ns=128000"
#define BOARD_LEVEL_MAX 511
#define BOARD_VOLT_PER_LEVEL "1.5656e-3"
#define BOARD_SOURCE_OHM "10"
#define BOARD_WAVE_POINTS 1024
#define BOARD_BAUD 500000
#define BOARD_HAS_FOOT 1
#define BOARD_HAS_LAMPS 1
#define BOARD_HAS_BUZZER 1
#define BOARD_KEEP_BYTES 128
#define BOARD_QUEUE_SAMPLES 78
/* A level handed over in one tick reaches the output in the next (OCR1A is buffered). */
#define BOARD_DRIVE_DELAY_TICKS 1
/* Nothing to be done in a wait. */
#define board_wait() ((void)0)

#endif
