"""Ports for programs that are told theirs beforehand."""

from __future__ import annotations

import socket
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager


@contextmanager
def reserved_ports(count: int) -> Iterator[list[int]]:
    """Hold free ports: bound but not listened at, they are given to nobody who asks for any port, while a server that
    is told the number, and reuses addresses as servers do, gets it."""
    with ExitStack() as stack:
        held = [stack.enter_context(socket.socket()) for _ in range(count)]
        for each in held:
            each.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            each.bind(("127.0.0.1", 0))
        yield [each.getsockname()[1] for each in held]
