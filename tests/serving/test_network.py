"""A class on an address of the network: what is bound, what the paper says, and who is let in there."""

import socket

import psutil
import pytest
from serving_harness import ADDRESS, PAGE, Line, Phone
from test_join_sheet import picture, read
from websockets.exceptions import InvalidStatus

ELSEWHERE = "127.0.0.3"


@pytest.fixture(scope="module")
def phone(klass):
    """Give a phone that came in over the network's address and has a page open."""
    phone = Phone(klass, ELSEWHERE, ADDRESS)
    assert phone.join(klass.codes[4]).status == 303
    phone.open()
    return phone


def test_class_listens_at_its_address_and_this_computer_alone(klass):
    """No other address of this computer answers."""
    listening = {line.laddr.ip for line in psutil.Process(klass.server.pid).net_connections("tcp") if not line.raddr}
    assert listening == {ADDRESS, "127.0.0.1"}
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection((ELSEWHERE, klass.port), 5)


def test_paper_and_screen_give_the_address_that_answers(klass):
    """The square on the sheet and the words on the screen of letters hold the network's address."""
    url = f"http://{ADDRESS}:{klass.port}/"
    assert read(picture(klass.work / "join_sheet.pdf", 150)) == url
    assert url in (klass.home / "server.log").read_text("utf-8").split()
    assert Phone(klass, ELSEWHERE, ADDRESS).get("/").status == 200


def test_cookie_and_line_hold_there(phone):
    """Who came in over that address has the pages, and a line that carries the controls."""
    assert f"/page/{PAGE}" in phone.get("/").text
    line = Line(phone)
    assert line.models()
    line.close()


def test_other_origins_are_refused_there(klass, phone):
    """A page of this computer's own address, or of another, opens no line there and lets nobody in."""
    for origin in (f"http://127.0.0.1:{klass.port}", f"http://{ELSEWHERE}:{klass.port}", "null"):
        with pytest.raises(InvalidStatus):
            Line(phone, origin=origin)
        assert phone.join(klass.codes[4], Origin=origin).status == 403
    assert phone.get("/", Host=f"{ELSEWHERE}:{klass.port}").status == 403
