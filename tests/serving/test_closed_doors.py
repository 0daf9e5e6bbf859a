"""What a learner, or somebody else on the network, must not reach."""

import time
from concurrent.futures import ThreadPoolExecutor

import pytest
from serving_harness import PAGE, WORD, Line, Phone, by_label
from websockets.exceptions import ConnectionClosed, InvalidStatus

from gardenlib import plot
from gardenlib.words import texts

PEOPLE = texts("en")["start.people"]
TRICKS = [
    "/page/../codes.csv",
    "/page/..%2fcodes",
    "/page/%2e%2e/secret.key",
    "/codes.csv",
    "/voila/static/..%2f..%2f..%2fsecret.key",
    "/voila/static//etc/passwd",
    "/voila/templates/lab/static/../../../../../../etc/passwd",
    "/voila/templates/lab/static/..%2f..%2fconf.json",
    "/voila/labextensions/@jupyter-widgets/jupyterlab-manager/static/../package.json",
    "/voila/files/00_start_here.ipynb",
    "/page/01_site_and_zone",
    "/page/__init__",
    "//etc/passwd",
    "/page/00_start_here%00",
]
INTERFACES = [
    "/api",
    "/api/contents",
    "/api/contents/00_start_here.ipynb",
    "/api/kernels",
    "/api/kernelspecs",
    "/api/sessions",
    "/api/terminals",
    "/api/status",
    "/files/00_start_here.ipynb",
    "/tree",
    "/lab",
    "/login",
    "/voila/tree",
    "/voila/render/00_start_here.ipynb",
    "/voila/api/contents",
    "/voila/query/00000000-0000-0000-0000-000000000000",
    "/voila/execution/00000000-0000-0000-0000-000000000000",
    "/voila/api/themes/",
    "/metrics",
]


@pytest.fixture(scope="module")
def inside(klass):
    """Give a phone that was let in and has a page open."""
    phone = Phone(klass, "127.0.0.2")
    phone.join(klass.codes[4])
    phone.open()
    return phone


@pytest.mark.parametrize("path", TRICKS + INTERFACES)
def test_nothing_else_is_answered(inside, path):
    """Path tricks, pages that were not chosen and the server's own interfaces give nothing, even to who is in."""
    for method in ("GET", "POST", "PUT", "DELETE"):
        answer = inside.ask(method, path, None if method == "GET" else "")
        assert answer.status in {403, 404, 405}, (method, answer.status)
        assert "root:" not in answer.text
        assert "nbformat" not in answer.text


def test_page_is_not_made_for_who_is_not_in(klass):
    """Without a cookie, with a forged one, or with one for a plot that is not there, only the door is shown."""
    for cookie in ("", "garden_plot=plot_05", 'garden_plot="2|1:0|10:1795759174|11:garden_plot|8:cGxvdF8wNQ==|00"'):
        stranger = Phone(klass)
        stranger.cookie = cookie
        answer = stranger.get(f"/page/{PAGE}")
        assert answer.status == 302
        assert answer.headers["Location"] == "/"


def test_cookie_is_out_of_reach_of_scripts_and_other_sites(klass):
    """The cookie is signed, HttpOnly and SameSite, and holds no code."""
    answer = Phone(klass, "127.0.0.2").join(klass.codes[4])
    cookie = answer.headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert klass.codes[4].replace(" ", "") not in cookie


def test_another_learner_does_not_reach_my_kernel(klass, inside):
    """The kernel of one learner answers no other: not its line, not its state, not its end; nor a stranger."""
    other, stranger = Phone(klass, "127.0.0.2"), Phone(klass)
    other.join(klass.codes[5])
    for phone in (other, stranger):
        assert phone.get(f"/api/kernels/{inside.kernel}").status == 404
        assert phone.ask("POST", f"/voila/api/shutdown/{inside.kernel}", "").status == 404
        with pytest.raises(InvalidStatus) as refused:
            Line(phone, inside.kernel)
        assert refused.value.response.status_code == 404
    assert inside.get(f"/api/kernels/{inside.kernel}").status == 200


def test_editing_the_address_changes_no_plot(klass, inside):
    """Naming another plot in the address is left out; the page stays the learner's own."""
    answer = inside.get(f"/page/{PAGE}?plot_file=plot_01&QUERY_STRING=plot_01")
    assert answer.status == 302
    assert answer.headers["Location"] == f"/page/{PAGE}"


@pytest.mark.parametrize("origin", ["http://elsewhere.example", "null", "http://127.0.0.1:1"])
def test_other_sites_are_refused(klass, inside, origin):
    """A request or a line that another site's page opens is refused, and so is a foreign host name."""
    with pytest.raises(InvalidStatus):
        Line(inside, origin=origin)
    assert inside.join(klass.codes[4], Origin=origin).status == 403
    assert inside.get("/", Host="elsewhere.example").status == 403
    assert Phone(klass).join(klass.codes[4], Origin="").status == 403


def _listen(line, model=None):
    if model:
        line.set(model, value="x" * 10_000_000)
    for _ in range(1000):
        line.socket.recv(timeout=20)


def test_nothing_runs_over_the_line(inside, tmp_path):
    """Requests to run, complete, inspect or debug code are left unanswered; the line still carries controls."""
    line, mark = Line(inside), tmp_path / "ran"
    code = f"open({str(mark)!r}, 'w').write('x')"
    asked = []
    for channel in ("shell", "control"):
        asked.append(line.send("execute_request", {"code": code, "silent": False, "user_expressions": {}}, channel))
        asked.append(line.send("complete_request", {"code": "op", "cursor_pos": 2}, channel))
        asked.append(line.send("inspect_request", {"code": "open", "cursor_pos": 2, "detail_level": 0}, channel))
        asked.append(line.send("debug_request", {"command": "evaluate"}, channel))
        asked.append(line.send("shutdown_request", {"restart": False}, channel))
    asked.append(line.send("input_reply", {"value": "1"}, "stdin"))
    asked.append(line.send("comm_open", {"comm_id": "1", "target_name": "jupyter.widget", "data": {"state": {}}}))
    number = line.send("kernel_info_request", {})
    heard = line.answers(
        15, lambda m: m["parent_header"].get("msg_id") == number and "reply" in m["header"]["msg_type"]
    )
    line.close()
    assert heard
    assert not {m["parent_header"].get("msg_id") for m in heard} & set(asked)
    assert not mark.exists()
    assert inside.get(f"/api/kernels/{inside.kernel}").status == 200


def test_nothing_runs_in_the_other_form_of_messages(inside, tmp_path):
    """The same holds for the binary form that pages use, and a message without form closes the line."""
    import json
    import struct

    line, mark = Line(inside, v1=True), tmp_path / "ran"
    header = {
        "msg_id": "m",
        "msg_type": "execute_request",
        "username": "",
        "session": "s",
        "version": "5.3",
        "date": "",
    }
    code = {"code": f"open({str(mark)!r}, 'w').write('x')"}
    parts = [b"shell", *[json.dumps(part).encode() for part in (header, {}, {}, code)]]
    ends = [8 * (len(parts) + 2)]
    for part in parts:
        ends.append(ends[-1] + len(part))
    line.socket.send(struct.pack(f"<{len(ends) + 1}Q", len(ends), *ends) + b"".join(parts))
    time.sleep(1)
    assert not mark.exists()
    line.socket.send(b"\x00\x01nothing")
    with pytest.raises(ConnectionClosed):
        _listen(line)


def test_markup_in_what_a_learner_sends_stays_text(klass):
    """Markup in word and code comes back as nothing, and the title of a class is escaped on every screen."""
    answer, reader = Phone(klass, "127.0.0.3").join("<b>1</b>", "<script>alert(1)</script>"), Phone(klass)
    assert answer.status == 403
    reader.join(klass.codes[5])
    for screen in (answer, Phone(klass).get("/"), reader.get("/"), reader.get(f"/page/{PAGE}")):
        assert "<script>alert(1)" not in screen.text
        assert "<i>Invented" not in screen.text
    assert "&lt;i&gt;Invented&lt;/i&gt; &amp; &lt;script&gt;" in reader.get("/").text


def test_ten_megabytes_are_refused_and_harm_nothing(klass, inside):
    """An answer of 10 MB closes the line, a form of 10 MB is not read, and the plot is as it was."""
    before = plot.read(klass.plot(5)) if klass.plot(5).exists() else None
    line = Line(inside)
    model = by_label(line.models(), PEOPLE)
    with pytest.raises(ConnectionClosed):
        _listen(line, model)
    try:
        assert Phone(klass, "127.0.0.3").join("1" * 10_000_000).status in {400, 413}
    except OSError:
        assert Phone(klass).get("/").status == 200
    after = plot.read(klass.plot(5)) if klass.plot(5).exists() else None
    assert before == after
    assert inside.get(f"/api/kernels/{inside.kernel}").status == 200


def test_a_thousand_codes_are_slowed_and_shut_nobody_out(klass):
    """Of a thousand codes tried at once from one address a handful is looked at; another address still comes in."""

    def attempt(number):
        return Phone(klass, "127.0.0.7").join(f"{number:08d}").status

    with ThreadPoolExecutor(16) as pool:
        statuses = list(pool.map(attempt, range(1000)))
    assert statuses.count(403) <= 12
    assert statuses.count(403) + statuses.count(429) == 1000
    held = Phone(klass, "127.0.0.7").join(klass.codes[4])
    assert held.status == 429
    assert int(held.headers["Retry-After"]) >= 1
    assert Phone(klass, "127.0.0.8").join(klass.codes[4], WORD.upper()).status == 303
