"""What Android starts: the same program as the command `throatmark` without arguments."""

from app.command import main

if __name__ == "__main__":
    main()
