# How the firmware is built for an ATmega328P, and how it gets there; read by ../../Makefile.
CROSS  ?= avr-
TARGET := -mmcu=atmega328p -DF_CPU=16000000UL -mcall-prologues -mrelax

FLASH_MAX := 16384
RAM_MAX   := 1536
RAM_PART  := 2048
# tools/ reads the disassembly of an AVR: leave this empty for another processor.
BUDGETS   := budgets

PORT       ?= /dev/ttyUSB0
BAUD       ?= 115200
PROGRAMMER ?= usbasp
flash: all
	avrdude -c arduino -p atmega328p -P $(PORT) -b $(BAUD) -D -U flash:w:$(OUT)/conewise.hex:i

program: all
	avrdude -c $(PROGRAMMER) -p atmega328p -U flash:w:$(OUT)/conewise.hex:i

# 16 MHz crystal, brown-out at 4.3 V, EEPROM kept when the chip is erased, no boot section. See README.md.
fuses:
	avrdude -c $(PROGRAMMER) -p atmega328p -U lfuse:w:0xFF:m -U hfuse:w:0xD1:m -U efuse:w:0xFC:m

.PHONY: flash program fuses
