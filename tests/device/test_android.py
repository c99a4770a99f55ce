"""What the Android device asks of the system, against a stand-in whose files and descriptors are real."""

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

from app.device import Cancelled, Position, Unavailable, this_device

OK, LEFT = -1, 0  # android.app.Activity.RESULT_OK and RESULT_CANCELED


class Intent:
    """android.content.Intent, as far as it is used."""

    def __init__(self, action: str) -> None:
        self.action = action
        self.extras: dict[str, Any] = {}
        self.uris: list[Path] = []

    def putExtra(self, name: str, value: Any) -> None:  # noqa: N802
        self.extras[name] = value

    def addFlags(self, flags: int) -> None:  # noqa: N802
        self.flags = flags

    def addCategory(self, category: str) -> None:  # noqa: N802
        self.category = category

    def setType(self, kind: str) -> None:  # noqa: N802
        self.kind = kind

    @staticmethod
    def createChooser(intent: "Intent", _title: None) -> "Intent":  # noqa: N802
        return intent

    def getClipData(self) -> Any:  # noqa: N802
        if len(self.uris) < 2:
            return None
        items = [SimpleNamespace(getUri=lambda uri=uri: uri) for uri in self.uris]
        return SimpleNamespace(getItemCount=lambda: len(items), getItemAt=items.__getitem__)

    def getData(self) -> Path:  # noqa: N802
        return self.uris[0]


class System:
    """The phone: a media store that is a folder, an activity that another app may answer."""

    def __init__(self, folder: Path) -> None:
        self.store, self.cache = folder / "store", folder / "cache"
        self.store.mkdir()
        self.cache.mkdir()
        self.version = 34
        self.permitted = True
        self.asked: list[list[str]] = []
        self.started: list[Intent] = []
        self.listeners: list[Callable[[int, int, Any], None]] = []
        self.codes: list[int] = []
        self.fixes: list[Any] = []
        self.camera_missing = False

    def answer(self, result: int, data: Any = None) -> None:
        for listener in list(self.listeners):
            listener(self.codes[-1], result, data)

    # the activity
    def getContentResolver(self) -> "System":  # noqa: N802
        return self

    def getCacheDir(self) -> Any:  # noqa: N802
        return SimpleNamespace(getAbsolutePath=lambda: str(self.cache))

    def getSystemService(self, _name: str) -> Any:  # noqa: N802
        providers = {str(number): fix for number, fix in enumerate(self.fixes)}
        return SimpleNamespace(
            getProviders=lambda _enabled: SimpleNamespace(toArray=lambda: list(providers)),
            getLastKnownLocation=providers.get,
        )

    def startActivity(self, intent: Intent) -> None:  # noqa: N802
        self.started.append(intent)

    def startActivityForResult(self, intent: Intent, code: int) -> None:  # noqa: N802
        if self.camera_missing:
            raise RuntimeError("ActivityNotFoundException")
        self.started.append(intent)
        self.codes.append(code)

    # the content resolver
    def insert(self, _collection: str, values: dict[str, str]) -> Path:
        entry = self.store / values["_display_name"]
        entry.touch(exist_ok=False)
        return entry

    def delete(self, uri: Path, _where: None, _arguments: None) -> None:
        uri.unlink()

    def openFileDescriptor(self, uri: Path, mode: str) -> Any:  # noqa: N802
        flags = os.O_RDONLY if mode == "r" else os.O_WRONLY
        return SimpleNamespace(detachFd=lambda: os.open(uri, flags))

    def query(self, uri: Path, _columns: list[str], *_: None) -> Any:
        return SimpleNamespace(moveToFirst=lambda: True, getString=lambda _column: uri.name, close=lambda: None)

    # python-for-android's modules
    def modules(self) -> dict[str, ModuleType]:
        class Values(dict[str, str]):
            def put(self, name: str, value: str) -> None:
                self[name] = value

        classes: dict[str, Any] = {
            "org.kivy.android.PythonActivity": SimpleNamespace(mActivity=self),
            "android.os.Build$VERSION": SimpleNamespace(SDK_INT=self.version),
            "android.content.ContentValues": Values,
            "android.content.Intent": Intent,
            "android.provider.MediaStore$Images$Media": SimpleNamespace(EXTERNAL_CONTENT_URI="images"),
            "android.provider.MediaStore$Downloads": SimpleNamespace(EXTERNAL_CONTENT_URI="downloads"),
        }
        jnius, android, activity, permissions = map(
            ModuleType, ("jnius", "android", "android.activity", "android.permissions")
        )
        vars(jnius).update(autoclass=classes.__getitem__, cast=lambda _kind, value: value)
        vars(activity).update(
            bind=lambda on_activity_result: self.listeners.append(on_activity_result),
            unbind=lambda on_activity_result: self.listeners.remove(on_activity_result),
        )
        vars(permissions).update(check_permission=lambda _name: self.permitted, request_permissions=self.asked.append)
        vars(android).update(activity=activity, permissions=permissions)
        return {module.__name__: module for module in (jnius, android, activity, permissions)}


@pytest.fixture
def system(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> System:
    phone = System(tmp_path)
    monkeypatch.setenv("ANDROID_ARGUMENT", "/data/app")
    for name, module in phone.modules().items():
        monkeypatch.setitem(sys.modules, name, module)
    return phone


def test_the_camera_s_picture_arrives_and_leaves_the_gallery(system: System) -> None:
    pictures: list[object] = []
    assert this_device().take_picture(pictures.append) is None
    (intent,) = system.started
    assert intent.action == "android.media.action.IMAGE_CAPTURE"
    intent.extras["output"].write_bytes(b"a picture")
    system.answer(OK)
    assert pictures == [b"a picture"]
    assert list(system.store.iterdir()) == [] and system.listeners == []


def test_leaving_the_camera_leaves_nothing(system: System) -> None:
    pictures: list[object] = []
    this_device().take_picture(pictures.append)
    system.answer(LEFT)
    assert pictures == [Cancelled()]
    assert list(system.store.iterdir()) == []


def test_the_answer_to_another_request_is_not_the_camera_s(system: System) -> None:
    pictures: list[object] = []
    this_device().take_picture(pictures.append)
    system.listeners[0](1, OK, None)
    assert pictures == []


def test_a_phone_without_a_camera_app_says_so_and_keeps_nothing(system: System) -> None:
    system.camera_missing = True
    answer = this_device().take_picture(lambda _answer: pytest.fail("no camera, no picture"))
    assert isinstance(answer, Unavailable) and "ActivityNotFoundException" in answer.reason
    assert list(system.store.iterdir()) == [] and system.listeners == []


def test_before_android_10_the_camera_is_unavailable(system: System, monkeypatch: pytest.MonkeyPatch) -> None:
    system.version = 28
    monkeypatch.setitem(sys.modules, "jnius", system.modules()["jnius"])
    answer = this_device().take_picture(lambda _answer: pytest.fail("no picture"))
    assert isinstance(answer, Unavailable) and "Android 10" in answer.reason


def test_chosen_documents_come_as_copies_under_their_names(system: System, tmp_path: Path) -> None:
    chosen: list[Any] = []
    this_device().choose_files("Photograph", ["jpg", "png"], chosen.append)
    (intent,) = system.started
    assert intent.extras["android.intent.extra.MIME_TYPES"] == ["image/jpeg", "image/png"]
    for name in ("throat.jpg", "tag.png"):
        (tmp_path / name).write_bytes(name.encode())
        intent.uris.append(tmp_path / name)
    system.answer(OK, intent)
    assert [(path.name, path.read_bytes()) for path in chosen[0]] == [
        ("throat.jpg", b"throat.jpg"),
        ("tag.png", b"tag.png"),
    ]
    assert all(path.is_relative_to(system.cache) for path in chosen[0])


def test_leaving_the_chooser_is_said(system: System) -> None:
    chosen: list[object] = []
    this_device().choose_files("Bundle", ["zip"], chosen.append)
    assert system.started[0].kind == "application/zip"
    system.answer(LEFT)
    assert chosen == [Cancelled()]


def test_a_document_that_cannot_be_read_is_said(system: System, tmp_path: Path) -> None:
    chosen: list[object] = []
    this_device().choose_files("Bundle", ["zip"], chosen.append)
    system.started[0].uris.append(tmp_path / "gone.zip")
    system.answer(OK, system.started[0])
    assert isinstance(chosen[0], Unavailable) and "gone.zip" in chosen[0].reason


def test_a_shared_file_lies_in_downloads_and_is_offered(system: System, tmp_path: Path) -> None:
    (tmp_path / "report.pdf").write_bytes(b"pages")
    assert this_device().share(tmp_path / "report.pdf") == "Downloads: report.pdf"
    assert (system.store / "report.pdf").read_bytes() == b"pages"
    assert [intent.action for intent in system.started] == ["android.intent.action.SEND"]


def test_sharing_a_missing_file_leaves_no_empty_entry(system: System, tmp_path: Path) -> None:
    assert isinstance(this_device().share(tmp_path / "gone.pdf"), Unavailable)
    assert list(system.store.iterdir()) == []


def fix(latitude: float, age: float) -> Any:
    return SimpleNamespace(
        getTime=lambda: (time.time() - age) * 1000,
        getLatitude=lambda: latitude,
        getLongitude=lambda: -7.25,
        hasAccuracy=lambda: True,
        getAccuracy=lambda: 12.0,
    )


def test_the_latest_position_counts(system: System) -> None:
    system.fixes = [fix(57.0, 300), fix(57.5, 20)]
    position = this_device().position()
    assert isinstance(position, Position)
    assert (position.latitude, position.longitude, position.accuracy) == (57.5, -7.25, 12.0)


def test_a_position_of_an_hour_ago_does_not_count(system: System) -> None:
    system.fixes = [fix(57.0, 3600)]
    assert isinstance(this_device().position(), Unavailable)


def test_without_permission_the_position_asks_for_it(system: System) -> None:
    system.permitted, system.fixes = False, [fix(57.0, 1)]
    assert isinstance(this_device().position(), Unavailable)
    assert "android.permission.ACCESS_FINE_LOCATION" in system.asked[0]
