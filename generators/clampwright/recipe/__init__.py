"""Recipes: text to a typed recipe, every fault at once, each with its place and a remedy.

Read them in this order::

    positions           where each key and value stands in a text
    faults, written     a fault; a file as it is written, with the faults found in it so far
    load, syntax        a file to TOML data; what the TOML reader says, in plain words
    limits, measures    quantities within their limits
    readers, direction  other single values, and lists
    fields, blocks      the field tables: every key declared once
    tubes, common       what every recipe has
    kind, kinds         what a kind of recipe brings; the register of kinds
    accessory_plate     the keys of that kind (plate_faults, clamp_faults, plate_job, plate_starter)
    read                all of it together
    schema, reference, starter   other uses of the same field tables
"""
