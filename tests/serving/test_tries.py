"""Tries at the door: strangers are slowed down, and a class behind one router is not.

Source: common practice, no source, for the numbers.
"""

from gardenlib.serving.tries import FREE_TRIES, KEPT_S, MOST_COUNTED, Tries

ROUTER, STRANGER = "192.0.2.1", "198.51.100.7"


def test_class_behind_one_address_comes_in_without_waiting():
    """Of 30 learners whom a router shows as one address each third looks again once, and nobody waits."""
    tries, waits = Tries(lambda: 0.0), []
    for learner in range(30):
        for _ in range(2 if learner % 3 == 0 else 1):
            waits.append(tries.wait_s(ROUTER))
            tries.begin(ROUTER)
        tries.found(ROUTER)
    assert waits == [0.0] * 40
    assert tries.pause_s() == 0


def test_stranger_waits_longer_and_longer_but_is_never_shut_out():
    """After the free tries the wait doubles up to a minute; a quarter of an hour later all is forgotten."""
    clock = [0.0]
    tries, waits = Tries(lambda: clock[0]), []
    for _ in range(FREE_TRIES + 8):
        waits.append(tries.wait_s(STRANGER))
        clock[0] += waits[-1]
        tries.begin(STRANGER)
    assert waits == [0.0] * FREE_TRIES + [2.0, 4.0, 8.0, 16.0, 32.0, 60.0, 60.0, 60.0]
    clock[0] += KEPT_S + 1
    assert tries.wait_s(STRANGER) == 0


def test_one_code_buys_only_so_many_tries():
    """Somebody who comes in again and again with one good code has a bounded number of other tries."""
    tries, looked_at = Tries(lambda: 0.0), 0
    for _ in range(500):
        if tries.wait_s(STRANGER) == 0:
            tries.begin(STRANGER)
            looked_at += 1
        if tries.wait_s(STRANGER) == 0:
            tries.begin(STRANGER)
            tries.found(STRANGER)
    assert looked_at <= FREE_TRIES + 2 * MOST_COUNTED
