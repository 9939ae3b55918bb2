"""A preview follows the files of a spec, keeps the last good packet, answers to this machine only, writes nothing."""

from __future__ import annotations

import contextlib
import pathlib
import re
import socket
import subprocess
import sys
from collections.abc import Iterator

import pytest
from previews import PATIENCE_S, ROOT, Preview, job, mark_of, running, stream
from sample_packets import EXAMPLES

from buildspec import cli, pipeline
from buildspec import compile as compiling
from buildspec.errors import UsageError
from buildspec.findings import Diagnostic, Span
from buildspec.preview import building, pages, watching
from buildspec.preview.building import NO_FILES, NOTHING, Built

TITLE = re.compile(r"title: [^,]+")


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Preview]:
    """One preview for all questions that change nothing."""
    with running(job(tmp_path_factory.mktemp("job"))) as preview:
        preview.line("^build 1: ")
        yield preview


def snapshot(folder: pathlib.Path) -> dict[str, tuple[int, bytes]]:
    return {
        p.relative_to(folder).as_posix(): (p.stat().st_mtime_ns, p.read_bytes())
        for p in folder.rglob("*")
        if p.is_file()
    }


def test_it_serves_the_packet_as_compile_writes_it_and_tops_the_pages(
    shared: Preview, tmp_path: pathlib.Path
) -> None:
    outcome = pipeline.check_file(job(tmp_path / "job"))
    files = compiling.files_of(compiling.packet_of(outcome))
    assert len(files) > 20
    for name, content in files.items():
        answer = shared.ask(f"/{name}")
        assert answer.status == 200 and answer.headers["cache-control"] == "no-store"
        if name.endswith(".html"):
            assert b'<aside id="preview"' not in content and b"reload.js" not in content
            assert answer.body.count(b'<aside id="preview" class="good"') == 1
            before, _, after = answer.body.partition(b"<aside id=")
            assert content.endswith(after.partition(b"</aside>\n")[2])
            assert before.rstrip().endswith(b"<body>")
        else:
            assert answer.body == content
    assert shared.ask("/").body == shared.ask("/index.html").body


def test_only_its_own_script_runs(shared: Preview) -> None:
    answer = shared.ask("/")
    policy = answer.headers["content-security-policy"]
    assert (
        "default-src 'none'" in policy
        and "script-src 'self';" in policy
        and "frame-ancestors 'none'" in policy
    )
    assert re.findall(rb"<script [^>]*>", answer.body) == [
        f'<script src="/-/reload.js" data-mark="{mark_of(answer.body.decode())}" defer>'.encode()
    ]
    script = shared.ask("/-/reload.js")
    assert script.status == 200 and b"EventSource" in script.body
    assert script.headers["content-type"].startswith("text/javascript")


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1.evil.example", "localhost.evil.example:80", "", "127.0.0.2", "0.0.0.0", "[::2]",
             "localhost:x", "localhost@evil.example", "evil.example:8017", "2130706433"],
)  # fmt: skip
@pytest.mark.parametrize("path", ["/", "/packet.json", "/-/events?mark=0", "/nothing"])
def test_another_name_is_refused(shared: Preview, host: str, path: str) -> None:
    answer = shared.ask(path, host=host)
    assert answer.status == 403 and b"answers only to" in answer.body and b"<html" not in answer.body


@pytest.mark.parametrize("host", ["localhost", "LOCALHOST:1", "127.0.0.1:9", "[::1]:8017", "[::1]"])
def test_names_of_this_machine_are_answered(shared: Preview, host: str) -> None:
    assert shared.ask("/packet.json", host=host).status == 200


def test_two_names_are_refused(shared: Preview) -> None:
    with socket.create_connection(("127.0.0.1", shared.port), timeout=PATIENCE_S) as connection:
        connection.sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\nHost: evil.example\r\n\r\n")
        assert connection.recv(100).startswith(b"HTTP/1.1 403 ")


@pytest.mark.parametrize(
    "path", ["/../trial.build.yaml", "/%2e%2e/trial.build.yaml", "/..%2ftrial.build.yaml", "//etc/passwd", "/etc/passwd",
             "/documents/../../practice.yaml", "/trial.build.yaml", "/documents", "/documents/", "/drawings/..%5c..%5cx",
             "/%00", "/index.html/", "/-/", "/%ff"],
)  # fmt: skip
def test_nothing_beside_the_packet_is_served(shared: Preview, path: str) -> None:
    answer = shared.ask(path)
    assert (answer.status, answer.body) == (404, b"no such file in the packet\n")


@pytest.mark.parametrize("method", ["POST", "PUT", "PATCH", "DELETE", "OPTIONS"])
def test_nothing_but_reading_is_allowed(shared: Preview, method: str) -> None:
    answer = shared.ask("/", method=method)
    assert (answer.status, answer.headers["allow"]) == (405, "GET, HEAD")


@pytest.mark.parametrize("path", ["/", "/bom.xlsx", "/-/events?mark=0", "/-/reload.js"])
def test_head_has_the_headers_and_no_body(shared: Preview, path: str) -> None:
    answer = shared.ask(path, method="HEAD")
    assert (answer.status, answer.body) == (200, b"")
    if "events" not in path:
        assert int(answer.headers["content-length"]) == len(shared.ask(path).body)


def test_it_listens_on_the_loopback_address_only(shared: Preview) -> None:
    """`/proc/net/tcp` of Linux: local address as hexadecimal, 0A is a listening socket."""
    table = pathlib.Path("/proc/net/tcp")
    if table.exists():
        rows = [line.split() for line in table.read_text().splitlines()[1:]]
        listening = [
            row[1] for row in rows if row[3] == "0A" and int(row[1].partition(":")[2], 16) == shared.port
        ]
        assert listening == [f"0100007F:{shared.port:04X}"]
    with pytest.raises(OSError), socket.create_connection(("::1", shared.port), timeout=5):
        pass


def test_a_port_in_use_is_said_in_one_line(shared: Preview, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["preview", str(EXAMPLES[0]), "--port", str(shared.port)]) == 2
    said = capsys.readouterr().err
    assert said == (
        f"buildspec: port {shared.port} is in use; name another with --port, or 0 for any that is free\n"
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["nowhere.build.yaml"], "cannot read nowhere.build.yaml: no such file"),
        ([str(EXAMPLES[0]), "--port", "70000"], "port 70000 is not one of 0 to 65535"),
        ([str(EXAMPLES[0]), "--port", "http"], "invalid int value"),
        ([str(EXAMPLES[0].parent)], "no such file"),
    ],
)
def test_wrong_use_is_said_in_one_line(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["preview", *words]) == 2
    printed = capsys.readouterr()
    assert said in printed.err and printed.err.count("\n") == 1 and printed.out == ""


def test_a_missing_watcher_is_named_with_what_installs_it() -> None:
    code = "import sys\nsys.modules['watchfiles'] = None\nfrom buildspec.cli import main\n"
    code += f"sys.exit(main(['preview', {str(EXAMPLES[0])!r}]))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, cwd=ROOT)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.count("\n") == 1 and "pip install 'buildspec[preview]'" in done.stderr


def test_it_follows_good_bad_good_and_writes_nothing(tmp_path: pathlib.Path) -> None:
    spec = job(tmp_path / "job")
    before = snapshot(spec.parent)
    good = spec.read_text()
    with running(spec) as preview:
        preview.line("^build 1: ")
        first = preview.page()
        with stream(preview, mark_of(first)) as marks:
            spec.write_text(good.replace("batteries:", "batterys:", 1))
            preview.line(r"^build 2: \d+ errors?")
            assert next(marks) == mark_of(preview.page())
            bad = preview.page()
            assert 'class="refused"' in bad and "OLD, from 1 build ago" in bad
            line = good[: good.index("batteries:")].count("\n") + 1
            assert f'<code class="place">{spec.name}:{line}:1</code> <b>error</b>' in bad
            assert preview.ask("/packet.json").status == 200
            assert bad.partition("</aside>")[2] == first.partition("</aside>")[2]

            spec.write_text(good.replace("accessories:", "accesories:", 1))
            preview.line(r"^build 3: \d+ errors?")
            assert next(marks) == mark_of(preview.page())
            assert "OLD, from 2 builds ago" in preview.page()

            spec.write_text(TITLE.sub("title: Trial of the preview", good, count=1))
            preview.line("^build 4: ")
            assert next(marks) == mark_of(preview.page())
            again = preview.page()
            assert 'class="good"' in again and "<h1>Trial of the preview</h1>" in again

            spec.write_text(good)
            preview.line("^build 5: ")
            assert next(marks) == mark_of(preview.page()) == mark_of(first)
    after = snapshot(spec.parent)
    assert after.keys() == before.keys()
    assert {name: content for name, (_, content) in after.items()} == {n: c for n, (_, c) in before.items()}
    numbers = next(name for name in before if name.endswith(".numbers.yaml"))
    assert after[numbers] == before[numbers]


def test_a_spec_that_is_refused_from_the_start_shows_its_findings(tmp_path: pathlib.Path) -> None:
    spec = job(tmp_path / "job")
    good = spec.read_text()
    spec.write_text('buildspec: 1\njob: {number: <b>&"\n')
    with running(spec) as preview:
        preview.line("^build 1: 1 error")
        page = preview.page()
        assert "There is no packet yet" in page and f"{spec.name}:" in page
        assert preview.ask("/packet.json").status == preview.ask("/handover.html").status == 404
        with stream(preview, mark_of(page)) as marks:
            spec.write_text(good)
            assert next(marks) != mark_of(page)
        assert preview.ask("/packet.json").status == 200


@pytest.mark.parametrize("kind", ["practice", "parts", "numbers", "profile", "catalogue", "removed practice"])
def test_any_file_that_the_build_reads_is_followed(tmp_path: pathlib.Path, kind: str) -> None:
    spec = job(tmp_path / "job")
    other = tmp_path / "shop"
    other.mkdir()
    profile, catalogue = other / "customer.profile.yaml", other / "more.parts.yaml"
    profile.write_text("profile: 1\nname: customer\ndocument: letter of May, revision 1\n")
    catalogue.write_text("parts:\n  lamp-of-the-shop: {extends: led-work-10}\n")
    named = other / "shop.yaml"
    named.write_text("practice: 1\ncatalogues: [more.parts.yaml]\n")
    text = "profile: [../shop/customer.profile.yaml]\npractice: ../shop/shop.yaml\n"
    spec.write_text(spec.read_text() + text)
    file = {
        "practice": named, "parts": next(spec.parent.glob("*.parts.yaml")), "profile": profile,
        "numbers": next(spec.parent.glob("*.numbers.yaml")), "catalogue": catalogue, "removed practice": named,
    }[kind]  # fmt: skip
    with running(spec) as preview:
        preview.line("^build 1: (?!.*error)")
        with stream(preview, mark_of(preview.page())) as marks:
            if kind.startswith("removed"):
                file.unlink()
                expected = "cannot read"
            else:
                file.write_text(f"{file.read_text()}\nnonsense: 1\n")
                expected = f"{file.name}:"
            next(marks)
        assert expected in preview.page() and 'class="refused"' in preview.page()


def test_a_file_saved_by_renaming_over_it_is_followed(tmp_path: pathlib.Path) -> None:
    """As editors save: into a new file, then moved over the old one."""
    spec = job(tmp_path / "job")
    with running(spec) as preview:
        preview.line("^build 1: ")
        for n in (2, 3):
            new = spec.with_name("swap.tmp")
            new.write_text(TITLE.sub(f"title: Save number {n}", spec.read_text(), count=1))
            new.replace(spec)
            preview.line(f"^build {n}: ")
            assert f"<h1>Save number {n}</h1>" in preview.page()


@pytest.mark.parametrize("streams", [0, 5])
def test_ctrl_c_ends_it_at_once_with_code_0(tmp_path: pathlib.Path, streams: int) -> None:
    with running(job(tmp_path / "job")) as preview, contextlib.ExitStack() as stack:
        preview.line("^build 1: ")
        opened = [stack.enter_context(stream(preview, mark_of(preview.page()))) for _ in range(streams)]
        assert preview.stop() == 0
        assert [list(marks) for marks in opened] == [[]] * streams
        assert preview.lines.empty()


def error(line: int, message: str = "one") -> Diagnostic:
    return Diagnostic(Span("x.build.yaml", line, 1, line, 2), "error", "thin-wire", message)


def test_the_age_of_a_packet_counts_builds_that_came_to_something_else() -> None:
    files = {"index.html": b"<body>old</body>", "packet.json": b"{}"}
    good = building.follow(NOTHING, Built(files, (), ""))
    bad = building.follow(good, Built(NO_FILES, (error(1),), ""))
    assert building.follow(bad, Built(NO_FILES, (error(1),), "")) is bad
    worse = building.follow(bad, Built(NO_FILES, (), "cannot read practice.yaml"))
    assert [s.age for s in (good, bad, worse)] == [0, 1, 2] and worse.files == files
    again = building.follow(worse, Built(files, (), ""))
    assert (again.age, again.mark, again.number) == (0, good.mark, 4)
    assert building.follow(good, Built(files, (), "")) is good
    assert building.follow(NOTHING, Built(NO_FILES, (), "no")).age == 1


def test_what_a_finding_says_is_never_markup() -> None:
    nasty = '<script>alert(1)</script> & "x" </aside>'
    files = {"index.html": b"<html><body class='x'>old</body></html>"}
    showing = building.follow(
        building.follow(NOTHING, Built(files, (), "")), Built(NO_FILES, (error(1, nasty),), nasty)
    )
    page = pages.content(showing, "index.html")
    assert page is not None and b"alert(1)" in page
    assert (
        page.count(b"<script") == 1 and page.count(b"</aside>") == 1 and page.endswith(b"old</body></html>")
    )


def test_a_fault_of_ours_is_shown_and_does_not_end_the_preview(
    tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def crash(path: pathlib.Path) -> pipeline.Outcome:
        raise RuntimeError(f"no key in {path}")

    monkeypatch.setattr(pipeline, "check_file", crash)
    built = building.build(tmp_path / "x.build.yaml")
    assert "this is a fault of buildspec" in built.trouble and "RuntimeError" in built.trouble
    assert str(tmp_path) not in built.trouble


def test_files_named_by_named_files_are_sources(tmp_path: pathlib.Path) -> None:
    (tmp_path / "job").mkdir()
    (tmp_path / "shop").mkdir()
    spec = tmp_path / "job" / "x.build.yaml"
    spec.write_text(
        "vehicle: {data: ../cars/t.vehicle.yaml}\nprofile: [../shop/a.txt]\npractice: ../shop/p.yaml\nx: [a, 1, 'no.file']\n"
    )
    (tmp_path / "shop" / "a.txt").write_text("profile: 1\n")
    (tmp_path / "shop" / "p.yaml").write_text("catalogues: [../far/b.parts.yaml]\n")
    for name in ("cars", "far"):
        (tmp_path / name).mkdir()
    (tmp_path / "far" / "b.parts.yaml").write_text("also: ../job/x.build.yaml\n")
    found = watching.sources(spec)
    root = tmp_path.resolve()
    assert found.folders == {root / name for name in ("job", "shop", "cars", "far")}
    files = ("job/x.build.yaml", "shop/a.txt", "shop/p.yaml", "far/b.parts.yaml")
    assert found.files == {root / name for name in files}


def test_a_link_is_followed_where_it_lies_and_where_it_leads(tmp_path: pathlib.Path) -> None:
    for name in ("here", "there"):
        (tmp_path / name).mkdir()
    (tmp_path / "there" / "real.yaml").write_text("buildspec: 1\n")
    (tmp_path / "here" / "x.build.yaml").symlink_to("../there/real.yaml")
    found = watching.sources(tmp_path / "here" / "x.build.yaml")
    root = tmp_path.resolve()
    assert found.folders == {root / "here", root / "there"}
    assert found.files == {root / "here" / "x.build.yaml", root / "there" / "real.yaml"}


def test_a_system_that_will_not_watch_is_said_in_one_line(
    tmp_path: pathlib.Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import watchfiles

    def full(*_: object, **__: object) -> Iterator[None]:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(watchfiles, "watch", full)
    with pytest.raises(UsageError, match="cannot watch .*No space left on device"):
        next(watching.changes(watching.Watched(frozenset({tmp_path}), frozenset())))
