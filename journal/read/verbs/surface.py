"""Verbs of making a surface ready or finishing it: clean, seal, release, trim, sand, drill, polish."""

from __future__ import annotations

SENSES = """
clean: up & jigsaw|multitool|multi|router|grinder|trimmer|saw > trim;
    up|edge|edges & knife|file|blade|edge|edges & !@solvent > trim; > clean
wipe: @release & on|wax|in|over > release; @seal & on > seal; @gel & on > brush; wax|pva|release & on > release; > clean
degrease: > clean
wash: > clean
rinse: > clean
vacuum: mix|@batch & until|till > degas; @vacuum|@duration & !@fabric & !bag > degas; @fabric|bag|bagged|down > press;
    > clean
dust: gun > spray; @gel|@resin & !@release > spray; @release > release; on|powder|talc > release; > clean
sweep: > clean
scrub: > clean
blow: +on > @none; airline|line|gun & off|out|down & !plug|pattern|@mould > clean; +into > @none; +it & into > @none;
    air & @part|down|side|under|behind > demould; off & air|plug|pattern|@mould > demould; apart > demould;
    +it & off > demould; @release|@gel > spray; > clean
dewax: > clean
seal: bag|@bag & !@seal > press; > seal
shellac: > seal
prime: > seal
varnish: > seal
lacquer: > seal
wax: > release
rewax: > release
soap: > release
release: wedge|wedges > demould; bother|sweet|lovely|nicely|well > demould;
    from|off & pattern|plug|mould|mold|clean|easily > demould; loose|easily|clean|fine > demould; > release
buff: between > @none; > polish
shine: torch|light|lamp > check; > polish
trim: > trim
deflash: > trim
nip: > trim
sand: > sand
key: > sand
scuff: > sand
abrade: > sand
rub: @putty|@filler & in|into > fill; @release > release; @polish > polish; > sand
flat: > sand
flatten: > sand
grind: flush > trim; > sand
linish: > sand
rasp: > sand
drill: > drill
countersink: > drill
bore: > drill
polish: > polish
burnish: > polish
compound: > polish
chamfer: > trim
shave: > trim
pare: > trim
rout: > trim
router: > trim
dress: @grit|paper > sand; @damage > repair; > trim
saw: > trim
plane: > trim
da: > sand
tidy: router|jigsaw|knife|saw|blade > trim; edge|edges|flange > trim; > clean
refinish: > polish
feather: > sand
score: @fabric|@core > cut; > sand
lop: > trim
nibble: > trim
acetone: > clean
longboard: > sand
talc: > release
swill: round|around & !acetone|thinners > pour; > clean
sluice: > clean
mop: @mould|@gel|shine|compound & !bench|floor > polish; > clean
scour: > clean
swab: > clean
sponge: between > @none; @release > release; @gel|@rubber & on > brush; > clean
blast: > clean
undercoat: > seal
waterproof: > seal
dope: > seal
grease: > release
oil: > release
lubricate: > release
jigsaw: > trim
bandsaw: > trim
hacksaw: > trim
fettle: > trim
deburr: > trim
crop: > trim
whittle: > trim
guillotine: @fabric > cut; > trim
hone: > sand
ream: > drill
pierce: > drill
pilot: > drill
"""
