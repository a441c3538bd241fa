package calls

// Version is what this source calls itself; it stands on every drawing.
const Version = "0.1.0"
