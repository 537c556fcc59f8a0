"""Recipes: text to a typed recipe, every fault at once, each with its place and a remedy.

Read them in this order::

    positions           where each key and value stands in a text
    faults, written     a fault; a file as it is written, with the faults found in it so far
    load, syntax        a file to TOML data; what the TOML reader says, in plain words
    limits, measures    quantities within their limits
    readers, direction, wires   other single values, and lists
    fields, blocks      the field tables: every key declared once
    tubes, surroundings, common   what every recipe has
    clamp_fields, bushing_fields   keys that several kinds have; clamp_faults, fastener_faults
    kind, kinds         what a kind of recipe brings; the register of kinds
    accessory_plate     the keys of that kind (plate_faults, plate_job, plate_starter)
    component_bushings  the same (bushing_faults, bushing_job, bushing_starter)
    stand_off           the same (stand_off_faults, line_faults, line_place_faults, ...)
    read                all of it together
    schema, reference, starter   other uses of the same field tables
"""
