/* The host's end of the serial line: a pseudo-terminal, or standard input and output. */
#ifndef PORT_H
#define PORT_H

#include <stdbool.h>
#include <stdint.h>

/* Opens a pseudo-terminal, raw, and puts a link to it at this path. False, with a sentence in *why. */
bool port_open_terminal(const char *link_path, const char **why);
void port_open_standard(void);

/* True when a program has opened the terminal since this was last asked; looks at nothing but a queue. */
bool port_was_opened(void);
/* Drops what is under way on the terminal, both ways. */
void port_forget(void);

/* The next byte from the host, or -1 if there is none now; -2 when standard input has ended. */
int port_get(void);
void port_put(uint8_t byte);
/* Sends what was put. */
void port_flush(void);
void port_close(void);

/* Bytes that the host did not take in time and that were dropped, as a serial adapter drops them. */
uint64_t port_dropped(void);

#endif
