"""The parts the demo's pictures are drawn from: grounds, ropes, things on ropes, and the lens."""
