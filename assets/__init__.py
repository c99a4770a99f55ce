"""Files that ship with Throatmark; reach them through `app.resources`."""
