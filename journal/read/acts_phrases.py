"""Sayings that name an act by several words together: "off it came", "first gel on", "solvent wipe", "trim done".

A line of PHRASES is `act: saying; saying; ...`. A saying is words in order; `a|b` is either, `~let` any form of a
verb, `@fabric` a thing of a family of `families.py`, `..` up to four words of one clause, and `^` before the first
word wants it to open a clause. The longest saying wins over the single verbs that stand in it. A line that starts
with blanks goes on with the one before.
"""

from __future__ import annotations

PHRASES = """
clean: ~need|~want a .. wipe|clean|wash|scrub; dust|dirt|grease|residue|fingerprints|swarf removed|off;
    brush|brushes|tools|rollers is|are|'s in the acetone|solvent|thinners; ~give .. once - over; ~give .. going over;
    ~give .. wipe|scrub|rinse|sweep; ~get .. crud|muck|grease|gunk|residue|dirt|gunge off;
    ~get|~brush|~wipe .. release|wax|pva off; solvent|acetone|alcohol|meths|thinners|spirit wipe|wash|rub;
    tack rag|cloth over|round; ~wire brush|brushed .. off; ~have|had .. good wash|scrub|clean|sweep;
    bench|floor|tools|pots|brushes|rollers cleaned|swept|washed; ~swill .. in acetone|thinners; wipe down|over with;
    ^wiped down
seal: ~give .. wipe|coat|brush of|with @seal; grain filled|sealed; ~close|closed .. with|by shellac|sealer|varnish;
    @seal on|over|into; ~skin|skinned with @seal; ~paint|painted .. with .. varnish|shellac|sealer|lacquer
release: pva|wax|soap|jelly|beeswax|talc on|round|around|along the|it|them|both|all;
    wipe|smear|lick|dab|breath|rub|skim|film|touch of|with @release;
    ~give .. wipe|smear|lick|dab|rub|coat of|with @release; ^wax on , wax off; ^wax on; ^release on;
    wax gone|went|goes on|over; parting agent on|over|sprayed|wiped; ~grease|greased .. with; wax .. to be given;
    ~give .. a|another|good wax|waxing; ~dust .. with talc
wall: @clay|@hardware wall|fence|dam|barrier round|around|up|along|over|across|on|at|to|built|in;
    mdf|melamine|lino|card|brass|shim|ply wall|fence|dam|barrier|box round|around|up|along|over|across|on|built|in;
    @clay up to; ^box round|around it|them|her|the; @hardware box is|'s|on|up|built|round|around;
    cottle|cottles|boards|walls screwed|taped|glued|clamped|hot; ^half embedded|buried|bedded;
    half embedded|bedded in|the; clay up to the line|centre|center|split|parting;
    clay|putty wall|fence|dam|barrier run|up|on|in|done|round|built; parting|split line clayed|walled|built;
    shutters|shuttering|hoarding|cottles|walls up|on|round|built; ~shutter it|them|her
weigh: cup|pot|bucket|scale|scales 's|is on zero; scale|scales|balance ~say|~read|~show;
    on|onto the scale|scales|balance; on scale|scales|balance; taken on scale|scales; @weight on the balance
mix: the two|both parts together; batch|brew .. made|mixed|stirred; the a into the b; the b into the a;
    resin into|to the hardener;
    hardener|catalyst into|to the resin; a into b; b into a; a and b together|combined|stirred;
    ~give .. good|proper|right|long stir|mix|stirring; ~give .. stir|mix; ~kick off @resin;
    ~kick|kicked .. at .. percent|%; fresh|new batch|brew|mix made|up|on; ~make|~do up a batch|brew;
    ~whizz it|them|that up; ~thin|thinned .. with acetone|thinners|styrene
degas: on|under the pump; bell jar; ~give|~hold it|them|that .. under|in vacuum|vac|chamber;
    vacuum|vac|degas|degassing pot|chamber|jar; torch|flame|heatgun over .. bubbles;
    ~hit|~flash .. torch|flame|heatgun; ~hit|~flash .. heat gun; torch|flame over the top;
    bubbles|air pulled|drawn|sucked out; ~vac 'd|d; vac'd the|it|them
thicken: ^bit|pinch|scoop|handful|spoon of @filler in|into;
    ^a bit|pinch|scoop|handful|spoon of @filler in|into; @filler in till|until;
    ~put|~add|~stir .. enough .. in .. to hold|stand; to a paste|putty|peanut;
    ~take|~bring .. up to a|thick|stiff paste|putty|butter|mayonnaise|ketchup
tint: ^drop|squirt|splash|dash|touch|speck of flesh|white|black|grey|blue|red|green|brown|pigment|colour|dye;
    a drop|squirt|splash|dash|touch|speck|dollop .. pigment|colour through|stirred;
    ^a drop|squirt|splash|dash|touch|speck of black|white|grey|blue|red|green|brown|colour in|into;
    pigment|colour|colouring|dye through
pour: slush ~cast; ^straight in|into the mould|mold|box|cavity|rubber|silicone; in it|she|he|they went|goes;
    in he|she|it|they went; whole|all lot in;
    lot|bucket|pot|batch|thing went in; ~let it|her run|flow in|from|down; ~fill .. to the brim|line;
    ~run the @rubber|@resin|@plaster in|into|down; pour done|finished|complete; ~empty|emptied .. into
brush: gel coat today|tonight|yet; ^gel finished|done|started|complete;
    ^gel|gelcoat coat finished|done|started|complete; ^gel on;
    first|second|third|next|last|final gel|coat on; ^gelcoat on; ~lick of gel;
    brush|face|print|beauty|splash|detail coat on|over|done|of|in;
    brush|face|print|beauty|splash|detail coat 's|is on|in
stipple: pounced; ~dab|dabbed|~work|worked|~poke|poked|~push|~jab .. air|bubbles out .. brush;
    stippling|stipple brush round|over|in|through; ends|end|points of the bristles; ~tap|tapped the brush|bristles;
    ~dab|dabbed .. with a|the sponge; stiff brush jabbed|dabbed|poked
spray: ~fire on|over a|the|some|another; on|over|along|down with the gun; out of the gun; out the gun; from the gun;
    through the gun;
    by|with spraygun|airless; with the cup|spray|gravity|hopper gun; mist|dust|tack|flash coat sprayed|shot|gunned;
    ~gun|gunned the|a|some|it|on; gunned; mix gunned; chopped on with the gun; ~fire|fired .. gun
press: vacuum|vac is|'s on|up; ^vacuum|vac on|up; full|good|hard vac|vacuum on|held|holding|pulled;
    sandbags|weights|bricks|clamps on|all|round|over|across; tape over|round|wound|wrapped .. tight;
    tube|strap|band wound|wrapped round; ^bag down|on|sealed|up; ~seal|sealed the bag; in the press|vice|vise;
    g - clamps; sandbag|weight|brick|bricks on top; ~pull|pulled down to .. hg|inches|mbar; breather , bag
fill: ^fillet|fillets done|in|finished|run; ~run .. fillet of|round|in|along; low spots|spot bogged|filled|skimmed;
    corners run round|in with; clay|wax|putty|filler pushed|pressed|stuffed|rammed|packed|thumbed|poked in|into|round;
    ~close the|that|this angle|gap|corner|undercut|joint|seam; siliconed in|round; ^bogged
laminate: both|first|second|third|last|next|inner|outer|back skin|skins|ply|plies down|on|done|laid;
    ~do the glass|glassing|layup|laminate|laminating; @fabric|glass down;
    bits|strips|pieces mushed|pressed|tucked in|into|round; tacked|fixed on with wet;
    @fabric mushed|slapped|thrown|slung
roll: bubble buster|roller over|along|down|round|through; air buster|roller over|along|down|round|through;
    ~work|~get|~push|~chase .. air out .. roller|paddle;
    fin|paddle|ribbed|washer|steel|bristle roller over|along|round|down|up|through; back - rolled; all|well|then rolled;
    backrolled
wet out: soaked right|all|clean|well through; no dry|white patches|spots|bits; ~soak .. right|all the way through;
    ~wet the mould|mold out
cut: strips|pieces|squares|patches|plies|tapes|discs|kits|kit|templates|bits .. cut|snipped|torn|chopped|ripped;
    @fabric .. cut|snipped|sliced|torn|ripped to|up|into|out|already|for|ready; @fabric is|was|all|'s cut;
    ~rip|ripped|~tear|torn the @fabric
wait: ~leave|left .. clamps|weights|bricks|sandbags|bag|vacuum|jacket on;
    clamps|weights|bag|vacuum|jacket|sandbags|bricks stayed|stay|staying|kept on; ~give it|her|them|that|this @duration;
    ~give it|her|them|that|this another|about|a|at @duration; ^hanging about|around; hung about|around;
    ~leave|~let .. be for @duration; ~sit on it|our|my for|till|until; ~down|downed tools; ~kill time|twenty|an|half;
    an hour|half hour 's wait; hour|hours|minute|minutes 's wait; ~rest for; time to flash
cure: in|into the autoclave|clave; cure|curing was|is|were given;
    ~have .. night|weekend|day|week|hours|holiday to go|cure|harden|set|kick;
    ~go|went off overnight; going off .. overnight; ~set hard|off|up overnight;
    under the lamps|lamp|heater; to itself overnight; damp|wet cloth|sheet|sacking|hessian under|over;
    ~leave|left .. alone to harden|set|cure; hairdryer|heatgun on it|her|him|them
post-cure: in|into the|an oven; in|into the hot box; in|into hotbox|oven; back in the oven;
    oven|blanket .. up|ramped to; ~take|~bring|~run|~turn .. oven|blanket up to;
    heat|heated|heating|electric blanket on|over; blanket of heating; tempering of; ~give .. bake|roast;
    post cured|curing; heat treatment
check: ^still wet|damp|runny|liquid; vacuum|vac is|'s holding|steady|dropping;
    shore a|d ~read|~say|~show; barcol|durometer|shore|gauge|thermometer|hygrometer|meter|probe ~read|~say|~show;
    tap|coin|drop|leak|gel|finger|touch|scratch|thumb|nail|glove|hardness test|check;
    straight|straightedge edge across|along|on|over; straightedge across|along|on|over;
    dry|tacky|sticky|soft|hard|cool|warm to the touch|hand;
    had|having|took a|another look|poke|feel|prod|squint|gander|peek; had|took a good|quick look|feel|prod;
    had|have a squiz|squizz|dekko|decko|shufty|nose|geek|feel|poke|look;
    had|have a|another|good look|squiz .. under|with a|the lamp|light|torch;
    ~put a|my finger|hand|thumb|knuckle to; ~try it|them with; i|we could feel|hear|smell the|it|a;
    ~have|~put|~lay|~run my|a|the|your finger|fingers|hand|knuckle|thumb|glove on|over|across|along|down|round;
    ~run|~ran a torch|finger|light|nail over|across|along|round; visual inspection|check;
    ~knock on it .. solid|hollow|coin; leak check good
trim: ~need|~want a .. trim|trimming; trim|trimming done|finished|complete;
    edge|edges|flange|flanges|rim tidied|squared|cleaned|taken up|back|off;
    edges snipped|nipped; ~run|~take .. multitool|jigsaw|router|grinder|trimmer|cutter round|along|over|down;
    flash|flashing 's off|gone; flash off ,|and; flash|flashing taken|cut|broken|pared
sand: ~need|~want a .. rub|rubdown|sand|sanding|flatting|scuff; wet and dry; wet - and - dry; through the grits;
    up through the papers|grits;
    ~hit|~go .. with some|a .. grit|twenty|eighty|hundred; ~take|~knock .. shine|gloss|nibs off|back|down;
    ~give .. key|flatting|scuff|rub|rubdown; sanded|blocked|flatted back|down|flat|off; edges feathered
drill: ~drill and ~tap; hole|holes every|at|bored; hole|holes .. through;
    hole|holes bored|reamed|tapped|punched|drilled;
    ~put|~make|~pop|~knock|~punch|~run|~poke|made .. hole|holes|vents through|in|at|for;
    ~open|~ream .. hole|holes out|up; pin - vised; pin vised; ~make|made a vent|hole;
    pilot hole|holes|pilots in|through; drilling done|finished
polish: ~need|~want a .. polish|buff|buffing; t - cut; buffing wheel|mop; cut and polish|polished|buff|buffed;
    mop over|round|on;
    cutting|polishing|rubbing compound on|over|and|then; up to a mirror|shine|gloss; ~give .. polish|shine|buff|buffing;
    put|~lay the mop|wheel on
fit: feet|hinges|handles|lugs|locators|wheels|castors|casters is|are on;
    hinges|catches|dowels|handles|bolts|inserts|bushes|studs|frame on|in|fitted|bonded|screwed|glassed;
    brackets|lugs|eyes|latches|clips|casters|feet|locators|hardware on|in|fitted|bonded|screwed|glassed;
    hinges and catches on; tube|pipe|rod|shaft|plate set|let|sunk|bonded in|into;
    ~glass|glassed the insert|inserts|brackets|bracket|frame|lugs|bolts|nuts in; fin boxes routed in
demould: ^out at|by @moment; halves|half off|apart; that 's|is it|her|him|them out|off|open|free;
    that 's|is the @mould|@part|@pattern|lid out|off|open|free|apart;
    she|he|it|shell|rubber|@mould|jacket|skin|part let go; @pattern is|'s|are|was out|free;
    @mould|@rubber|shell|rubber|piece|tool is|'s|are|was open|off|free|apart;
    is|'s|are|was off the mould|mold|pattern|plug|stone|original|master|clay|model|sculpt|former|tool;
    ^off the face|bust|pattern|plug|form|former|sculpt; ^out of the silicone|rubber|latex; ~shift it|her|him|them;
    off|out he|she|it|they came|comes|popped|come|pops|went; ~let go with|clean|lovely|easy|sweet|after|first|all;
    ^out the|of box|mould|mold; ^cottle|cottles|jacket|box|case|boards off;
    model|master|original|pattern|plug lifted|eased|popped|pulled|prised|knocked out|off|free; mallet .. off|out;
    ~lift|lifted it|her|him with the gantry|hoist|crane; peeled back; mould|mold opened|split|cracked open|apart|down;
    ~flex it|her|him out; ~spring|sprang|sprung it|her|him|them off|free|out; ^off , no
repair: leak|leaks|leak's fixed|sealed|cured|stopped; leak 's fixed|sealed;
    dab|touch|smear|blob of .. chip|chips|hole|holes|pinhole|pinholes|crack|void|void;
    chip|chips|crack|ding|void ~want|~need a dab|touch|bit|drop|fill; ~touch in the|that|a|up;
    ~glue|glued|~stick|stuck|~pin .. back on|together; ~dig|dug out .. and filled|fill|patched;
    chip|chips|crack|cracks|ding|dings|void .. patched|filled|mended|repaired|fixed; pinholes .. patched|filled;
    patch|patches on|over; ~close the|that|this bubble|chip|crack|tear;
    ~have|'ve that|it|them patched|mended|fixed|sorted; baking powder|soda
pull: ^first|second|third|next|last good|decent|proper|real one|casting|copy|cast|pull out|off|done;
    ^first|second|third|fourth|fifth one cast|out|done|off;
    first|second|third|fourth|fifth|next|last cast|mask|casting|copy|one|piece|tile 's|is out;
    ^the cast|casting|mask 's|is out;
    ~strike|~run|~take|~knock|~get .. one|another|couple|few|cast|casts|casting|castings|copies off it|this|her|him;
    first|second|third|fourth|fifth|sixth|next|last plaster|resin|silicone|concrete|wax|cement out;
    casting|copy|pull|one off|out the|of|my mould|mold; casting|copy|pull|one out of the|my mould|mold;
    one off|out of the mould|mold; one off the mould|mold; more .. out of the mold|mould; more off the mold|mould;
    another|few|couple|dozen more|of castings|copies|pulls|casts; another casting|copy|pull|cast out|off;
    third|fourth|fifth|sixth|first|second one|casting|copy off|out
photograph: photo|photos|picture|pictures|shots are|is|'s on|in the|my card|phone|camera|folder|file|drive;
    ~take photos|photo|pictures|picture|shots of it|them|her|him under|in the lamp|lamps|light;
    ~get|~take|~shoot|~grab|got|took|shot .. video|clip|snaps|snap|shots|photos|pictures|pics|photo|picture|pic;
    on camera|video|film; photo|photos|picture|pictures|snaps taken|made|of|for; photos|pictures all round;
    photo documentation; ~snap|snapped the|a|both|every|each
store: ~put|~tuck|~send|~take|~carry|~stow .. on|to|in|into the|stores shelf|rack|racking|store|stores|crate|loft;
    wrapped and boxed|crated|shelved|stored; down to stores;
    back on|in|to|into the|its shelf|rack|racking|store|stores|crate|cupboard|fridge|freezer;
    ~put|~set|~keep|kept .. aside|by for; ~pack|packed .. in|into|away its|the|in crate|box|bubble; crated up;
    ~put .. to bed; in its crate
"""
