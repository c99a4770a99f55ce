"""Android: the camera, the document chooser, positions and sharing by the system's own intents.

plyer's camera, chooser and positions fail on current Android (file URIs, content URIs taken for paths,
a listener short of a method), so these go to the system directly through pyjnius. Pictures and shared
files pass through the media store, which from Android 10 on needs neither a permission nor a file
provider. The CAMERA permission must stay out of the manifest: an app that declares it must also hold
it before it may ask another app for a picture.
"""

import mimetypes
import os
import tempfile
from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any, TypeVar

from app.device import folders
from app.device.abilities import Cancelled, Position, Unavailable
from app.device.borrowed import borrow

T = TypeVar("T")

ANDROID_10, ANDROID_13 = 29, 33
RESULT_OK = -1
POSITION_KEEPS = timedelta(minutes=10)
_requests = count(0x7A00)  # one number for each request, so that an answer finds its question


class Android:
    """A phone or tablet. What the libraries or the system deny becomes `Unavailable`."""

    def data_folder(self) -> Path | Unavailable:
        """See `Device`."""
        return folders.data_folder()

    def device_id(self) -> str | Unavailable:
        """See `Device`."""
        folder = self.data_folder()
        return folder if isinstance(folder, Unavailable) else folders.device_id(folder)

    def take_picture(self, done: Callable[[bytes | Cancelled | Unavailable], None]) -> Unavailable | None:
        """See `Device`. The camera's file does not stay in the phone's gallery."""
        return _attempt("The camera cannot be opened", lambda: _take_picture(done))

    def choose_files(
        self,
        title: str,
        endings: Sequence[str],
        done: Callable[[list[Path] | Cancelled | Unavailable], None],
    ) -> Unavailable | None:
        """See `Device`. The paths are copies in the app's cache."""
        return _attempt("Files cannot be chosen", lambda: _choose_files(title, endings, done))

    def position(self) -> Position | Unavailable:
        """See `Device`."""
        return _attempt("The position cannot be read", _position)

    def share(self, file: Path) -> str | Unavailable:
        """See `Device`. The copy goes to Downloads, and the system's share sheet opens."""
        return _attempt(f"{file.name} cannot be shared", lambda: _share(file))

    def notify(self, title: str, text: str) -> Unavailable | None:
        """See `Device`."""
        return _attempt("A notification cannot be shown", lambda: _notify(title, text))

    def buzz(self, seconds: float = 0.05) -> Unavailable | None:
        """See `Device`."""
        answer = borrow("vibrator", "vibrate", time=seconds)
        return answer if isinstance(answer, Unavailable) else None


def _attempt(failure: str, work: Callable[[], T]) -> T | Unavailable:
    try:
        return work()
    except Exception as error:  # Java exceptions have no common Python class that can be imported here
        return Unavailable(f"{failure} ({error or type(error).__name__}).")


def _java(name: str) -> Any:
    from jnius import autoclass

    return autoclass(name)


def _activity() -> Any:
    return _java("org.kivy.android.PythonActivity").mActivity


def _resolver() -> Any:
    return _activity().getContentResolver()


def _ask(intent: Any, answered: Callable[[bool, Any], None]) -> None:
    """Start another app's screen; `answered` gets whether it was completed and the intent it returned."""
    from android import activity

    request = next(_requests)

    def on_result(code: int, result: int, data: Any) -> None:
        if code == request:
            activity.unbind(on_activity_result=on_result)
            answered(result == RESULT_OK, data)

    activity.bind(on_activity_result=on_result)
    try:
        _activity().startActivityForResult(intent, request)
    except Exception:
        activity.unbind(on_activity_result=on_result)
        raise


def _new_entry(collection: str, name: str, kind: str) -> Any:
    """Reserve an entry of the media store and return its content URI."""
    if _java("android.os.Build$VERSION").SDK_INT < ANDROID_10:
        raise NotImplementedError("it needs Android 10")
    values = _java("android.content.ContentValues")()
    values.put("_display_name", name)
    values.put("mime_type", kind)
    uri = _resolver().insert(_java(f"android.provider.MediaStore${collection}").EXTERNAL_CONTENT_URI, values)
    if uri is None:
        raise OSError("the storage is full or missing")
    return uri


def _read(uri: Any) -> bytes:
    with os.fdopen(_resolver().openFileDescriptor(uri, "r").detachFd(), "rb") as file:
        return file.read()


def _take_picture(done: Callable[[bytes | Cancelled | Unavailable], None]) -> None:
    from jnius import cast

    uri = _new_entry("Images$Media", f"throatmark-{datetime.now(UTC):%Y%m%d-%H%M%S-%f}.jpg", "image/jpeg")
    intent = _java("android.content.Intent")("android.media.action.IMAGE_CAPTURE")
    intent.putExtra("output", cast("android.os.Parcelable", uri))
    intent.addFlags(3)  # FLAG_GRANT_READ_URI_PERMISSION | FLAG_GRANT_WRITE_URI_PERMISSION

    def answered(completed: bool, _data: Any) -> None:
        picture = _attempt("The picture cannot be read", lambda: _read(uri)) if completed else Cancelled()
        _attempt("", lambda: _resolver().delete(uri, None, None))
        done(picture)

    try:
        _ask(intent, answered)
    except Exception:
        _resolver().delete(uri, None, None)
        raise


def _choose_files(
    title: str, endings: Sequence[str], done: Callable[[list[Path] | Cancelled | Unavailable], None]
) -> None:
    intent = _java("android.content.Intent")("android.intent.action.OPEN_DOCUMENT")
    intent.addCategory("android.intent.category.OPENABLE")
    kinds = sorted({mimetypes.guess_type(f"x.{end}")[0] or "application/octet-stream" for end in endings})
    intent.setType(kinds[0] if len(kinds) == 1 else "*/*")
    intent.putExtra("android.intent.extra.MIME_TYPES", kinds)
    intent.putExtra("android.intent.extra.ALLOW_MULTIPLE", True)
    intent.putExtra("android.intent.extra.TITLE", title)

    def answered(completed: bool, data: Any) -> None:
        if not completed or data is None:
            done(Cancelled())
        else:
            done(_attempt("The chosen file cannot be read", lambda: [_copied(uri) for uri in _uris(data)]))

    _ask(intent, answered)


def _uris(data: Any) -> list[Any]:
    several = data.getClipData()
    if several is None:
        return [data.getData()]
    return [several.getItemAt(index).getUri() for index in range(several.getItemCount())]


def _copied(uri: Any) -> Path:
    """Copy a document to the cache under its own name, in a folder of its own."""
    cursor = _resolver().query(uri, ["_display_name"], None, None, None)
    try:
        name = cursor.getString(0) if cursor is not None and cursor.moveToFirst() else None
    finally:
        if cursor is not None:
            cursor.close()
    folder = Path(tempfile.mkdtemp(dir=_activity().getCacheDir().getAbsolutePath()))
    path = folder / (Path(name or "").name or "document")
    path.write_bytes(_read(uri))
    return path


def _permit(*permissions: str) -> None:
    """Ask the person for what is not permitted yet; the answer comes later, so this attempt fails."""
    from android.permissions import check_permission, request_permissions

    names = [f"android.permission.{permission}" for permission in permissions]
    if not any(check_permission(name) for name in names):
        request_permissions(names)
        raise PermissionError("allow it when asked, then try again")


def _notify(title: str, text: str) -> Unavailable | None:
    if _java("android.os.Build$VERSION").SDK_INT >= ANDROID_13:
        _permit("POST_NOTIFICATIONS")
    answer = borrow("notification", "notify", title=title, message=text, app_name="Throatmark")
    return answer if isinstance(answer, Unavailable) else None


def _position() -> Position:
    _permit("ACCESS_FINE_LOCATION", "ACCESS_COARSE_LOCATION")
    locations = _activity().getSystemService("location")
    fixes = [locations.getLastKnownLocation(provider) for provider in locations.getProviders(True).toArray()]
    known = [fix for fix in fixes if fix is not None]
    if not known:
        raise LookupError("there is none yet: type the place instead")
    last = max(known, key=lambda fix: fix.getTime())
    fixed_at = datetime.fromtimestamp(last.getTime() / 1000, UTC)
    if datetime.now(UTC) - fixed_at > POSITION_KEEPS:
        raise LookupError("the last position is older than ten minutes: type the place instead")
    accuracy = float(last.getAccuracy()) if last.hasAccuracy() else None
    return Position(float(last.getLatitude()), float(last.getLongitude()), accuracy, fixed_at)


def _share(file: Path) -> str:
    from jnius import cast

    kind = mimetypes.guess_type(file.name)[0] or "application/octet-stream"
    uri = _new_entry("Downloads", file.name, kind)
    try:
        with os.fdopen(_resolver().openFileDescriptor(uri, "w").detachFd(), "wb") as out:
            out.write(file.read_bytes())
    except Exception:
        _resolver().delete(uri, None, None)
        raise
    intent = _java("android.content.Intent")("android.intent.action.SEND")
    intent.setType(kind)
    intent.putExtra("android.intent.extra.STREAM", cast("android.os.Parcelable", uri))
    intent.addFlags(1)  # FLAG_GRANT_READ_URI_PERMISSION
    # The file lies in Downloads whether or not a share sheet comes up.
    chooser = _java("android.content.Intent").createChooser
    _attempt("", lambda: _activity().startActivity(chooser(intent, None)))
    return f"Downloads: {file.name}"
