"""The rooms of the bench page, a module and a folder of templates each; `ROOMS` is their order."""
