"""Verbs of batches and coats: weigh, mix, degas, thicken, tint, pour, brush, stipple, spray."""

from __future__ import annotations

SENSES = """
weigh: @part & finished|empty|dry > check; > weigh
mix: @plaster & @water > mix; @filler & !@second > thicken; @pigment & !@second > tint; > mix
stir: @plaster & @water > mix; @filler & !@second > thicken; @pigment & !@second > tint; > mix
whisk: > mix
spatulate: > mix
beat: > mix
catalyse: > mix
catalyze: > mix
blend: > mix
combine: > mix
remix: @filler & !@second > thicken; @pigment & !@second > tint; > mix
batch: > mix
knead: > mix
degas: > degas
degass: > degas
deair: > degas
evacuate: > degas
thicken: > thicken
thix: > thicken
tint: > tint
colour: > tint
color: > tint
pigment: > tint
pour: rain|sweat > @none; scale|scales|@scale > weigh; @damage > repair; > pour
decant: > pour
tip: @scale > weigh; @second > mix; @filler > thicken; > pour
drizzle: > pour
trickle: > pour
dribble: > pour
slush: > pour
flood: > pour
brush: =gel > brush; +it|+them|+the & down & !@resin & !@release & !@coat & !@rubber & !@seal > clean;
    @resin & into|through & @fabric & !@gel > wet out; slip|slurry & along|over|on > release;
    crud|muck|loose|dirt & off|out|away > clean; mat|glass & air > stipple;
    @release > release; @seal > seal; off|dust|out & dust > clean; > brush
paint: @release > release; @seal > seal; > brush
daub: > brush
dab: @fault & @rubber|@gel|@resin|@putty|@plaster > repair; stiff|stubby|sponge & !@release > stipple;
    air|bubbles > stipple; stipple|stippling > stipple; @fabric > stipple;
    @release > release; > brush
smear: @release > release; @gap|@hole|@damage & @putty > fill; > brush
spread: @filler|@putty & spots|spot|low|@gap|@hole|@damage > fill; @release > release; @wall > @none; > brush
trowel: > brush
butter: toast|bread > @none; joint|joints|seam|seams > fill; > brush
skim: @filler|@putty & spots|spot|low|@gap|@hole|@damage > fill; > brush
slather: @release > release; > brush
coat: @release > release; @seal > seal; > brush
recoat: @release > release; @seal > seal; > brush
gelcoat: > brush
stipple: > stipple
spray: =gel > spray; @release > release; @seal > seal; > spray
mist: @release > release; > spray
spritz: @release > release; > spray
shake: +out|loose & @part > demould; bench|table|mould|mold|box > @none; > mix
flock: > spray
knife: edge|edges|flange|@flash|off > trim; > brush
screed: off|flush|level > trim; > brush
whip: +it|+her|+him|+them & out & !air > demould; +air|out|off|through & !@second|@batch > @none; > mix
activate: > mix
dose: @filler > thicken; > mix
dye: > tint
fog: @release > release; > spray
reweigh: > weigh
tare: > weigh
flick: > brush
splash: > brush
splat: > brush
fling: > brush
dispense: > weigh
portion: > weigh
ladle: > pour
brew: > mix
concoct: > mix
agitate: > mix
churn: > mix
swirl: into|through & @pigment > tint; round|around & mould|@mould > pour; > mix
dilute: > mix
cut-in: > brush
shade: > tint
teem: > pour
slosh: > pour
funnel: > pour
dollop: @gap|@hole|@putty > fill; > brush
pounce: > stipple
gun: > spray
airless: > spray
mush: @fabric|into|round > laminate; > mix
rotocast: > pour
"""
