"""Verbs of what follows: waiting, curing, checking, demoulding, casting, photographing, storing."""

from __future__ import annotations

SENSES = """
measure: time|temperature|thickness|depth|gap|humidity > check;
    into|@water|@resin|@second|@gel|@rubber|@plaster|@powder|@filler > weigh; > check
soak: @fabric & bench & !@duration > wet out; +right|+through|+clean & through & !@duration > wet out;
    @fabric & @plaster & !@duration > @none;
    @fabric & @resin > wet out; @seal > seal; > wait
autoclave: > cure
wait: +around|+about & @night > @none; +for & !@duration & !it|that|them > @none; > wait
cure: > cure
harden: > cure
postcure: > post-cure
bake: > post-cure
check: > check
inspect: > check
test: fit > check; > check
examine: > check
gauge: > check
tap: air|bubbles > @none; insert|@insert|thread|threads|hole|holes & !@fabric > drill; @fabric|brush > stipple; > check
feel: > check
touch: +it|+that|+them & in > repair; +in & !@cast > repair; +up|up > repair; anything|nothing > @none; > check
find: > check
notice: > check
spot: > check
demould: > demould
demold: > demould
unmould: > demould
unmold: > demould
prise: > demould
pry: > demould
wedge: > demould
lever: > demould
open: @lot > check; oven|@oven > @none; +it|+her|+him|+them & !up > demould;
    @fault & !wedge|wedges > repair; @damage & +it|+that|+them|+up > repair;
    feed|valve|inlet|line|pipe|hose > wet out; window|door|doors|shutter|shutters > @none;
    tin|tins|drum|bag|bags|bottle|box|roll|can|tub|tube|sack > check; @mould|halves|it|up|case|jacket|box > demould;
    > demould
pop: pressure & pot|chamber|tank > press; hole|holes & in|through & !@putty > drill; +them & pin|pins|needle > @none;
    @oven|oven|hotbox > post-cure; =second > mix; =fabric|=gel|=release > apply; =insert|=core > fit;
    =bag|=press > press; bubble|bubbles > check; it|them|that|this|out|off|open|free|loose|apart|@part|@mould > demould;
    > demould
photograph: > photograph
store: > store
shelve: > store
stash: > store
rack: > store
cast: +away > @none; =insert & in|into > fit; +in & @insert|eyes|lifting > fit; slush > pour; > pull
recast: > pull
demoulded: > demould
ramp: > post-cure
hang: hinge|hinges|@insert > fit; about|around & @duration > wait; +on|+fire > @none;
    up|back|away|@keep|hook|hooks|nail > store; > @none
stack: @fabric > laminate; > store
slake: > wait
jack: > demould
unbolt: @mould|halves|it|flange|flanges > demould; > demould
unclamp: > demould
debag: > demould
unbag: > demould
probe: > check
eyeball: > check
film: > photograph
prod: @fabric & @brushes > stipple; > check
thumb: @clay & round|around|along|base|edge > wall; @putty|@clay|@gap|into > fill; > check
pause: > wait
polymerise: > cure
polymerize: > cure
vulcanise: > cure
vulcanize: > cure
stove: > post-cure
temper: > post-cure
anneal: > post-cure
verify: > check
monitor: > check
confirm: > check
peek: > check
peep: > check
squint: > check
assess: > check
jemmy: > demould
unstick: > demould
hoick: > demould
video: > photograph
stow: > store
crate: > store
mothball: > store
warehouse: > store
"""
