### What pupils read, in English. Another language is another file like this
### one, named by its tag: the build says what it lacks.
###
### Reading age about eleven: short sentences, plain words. The same thing has
### the same name everywhere: bench, sheet, row, box, lesson code, come-back number.

## The language itself

# Which way it is written: ltr or rtl.
direction = ltr
list-two = { $most } and { $last }
list-more = { $most }, { $next }
month = { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[12] December
 }
# $month is a word of the message before this one.
date-of = { $day } { $month } { $year }
when-today = at { $time }
when-other-day = on { $day } { $month } at { $time }

## Around every page

page-skip = Skip to the page
page-staff = Staff
page-sign-in = Staff sign in
page-privacy = What is kept about you
page-about = About Crestcount

## Coming in

join = Join your class
join-code = Lesson code
join-code-hint = Five letters. Your teacher has it.
join-button = Join
join-empty = Type the lesson code. Your teacher has it.
join-no-such-code = There is no class with this code. Check the five letters with your teacher.

bench = Bench { $label }
benches = Choose your bench
benches-all = All benches
benches-lead = { $practical }, class { $class }, { $date }.
benches-closed = Your teacher has closed this class set. You can read your sheet, but not change it.
benches-marked = Your sheets have been marked. Choose your bench to read your feedback.
benches-handed-in = Handed in. You may need its come-back number.
benches-begun = Begun. You may need its come-back number.
benches-free = Nobody is here yet.
benches-other-class = Not your class?
benches-other-code = Type another code
bench-no-such = There is no bench with this letter in your class.
bench-closed = Your teacher has closed this class set. There is nothing on this bench’s sheet.

number-title = Your come-back number
number-heading = Bench { $label }: your come-back number
number-write-down = Write it down now. It is shown only this once.
number-what-for = You need it to open this sheet at another computer, or next lesson.

come-back = Come back to bench { $label }
come-back-number = Come-back number
come-back-hint = Four digits. Your group wrote them down on the first day.
come-back-button = Open the sheet
come-back-lost = Lost it? Ask your teacher for a new number.
come-back-wrong = That is not this bench’s number. Check it, or ask your teacher for a new one.
come-back-four = The come-back number has four digits. Type all four.
come-back-too-many = That was too many tries. Wait a minute, or ask your teacher for a new number.

leave = Leave this bench
leave-hint = Sharing this computer? Save first, then leave.

## What is kept, and what these pages are

privacy-lead = Your group’s readings and working are kept. Your name is not.
privacy-kept = What we keep
privacy-kept-numbers = The numbers and the answers that your group types, each time you save or hand in, and the time of day.
privacy-kept-bench = Which bench you chose: a letter, such as A. You have no account here.
privacy-kept-number = A scrambled form of your come-back number. The number itself is not kept.
privacy-kept-notes = Your teacher’s notes on the sheet.
privacy-kept-count = How many pupils were there, how many were not, and on which day those caught up.
privacy-kept-initials = Initials, if your teacher writes them into the register. They stand on no sheet, and only teachers see them. They are wiped on { $date }.
privacy-kept-initials-latest = Initials, if your teacher writes them into the register. They stand on no sheet, and only teachers see them. They are wiped on { $date } at the latest.
privacy-not-kept = What we do not keep
privacy-not-kept-name = Your name, your e-mail address or your photograph. Please do not type names in the boxes.
privacy-not-kept-initials = Your name, your initials, your e-mail address or your photograph. Please do not type names in the boxes.
privacy-not-kept-else = What else you do on this computer. These pages load nothing from other places, and nobody else can follow you through them.
privacy-cookies = Cookies
privacy-cookies-one = Your browser keeps one small mark, a cookie, that says which benches it has opened. It works for 12 hours at most, and it goes when the browser is closed. Press { leave } to end it sooner.
privacy-who = Who can see your sheet
privacy-who-sees = You, anybody who has your come-back number, and the science teachers of your school. Ask your teacher when it will be deleted.

about-lead = Crestcount is for the school practical on the speed of waves: ripples on water, and loops on a string.
about-what = Groups type their readings and working. The program works everything out again from the readings, and shows the teacher where a group’s own figures take a wrong turn.
about-teaching = For teaching practicals only
about-teaching-why = These live pages are for lessons. Do not use them where a practical is itself sat as an exam: there a teacher may not check results as they come.
about-marks = Marks are the department’s own. No awarding body asks for them or has approved them.
about-safety = Safety
about-safety-first = The cautions here repeat the usual ones and replace none. Your employer’s risk assessment, local rules and the technician’s word come first.

## When something goes wrong

problem-front = Go to the front page
problem-nothing-here = There is nothing here.
problem-no-page = Page not found
    .why = There is no page at this address. Check it, or start again.
problem-not-possible = Not possible
    .why = This page cannot be used in that way.
problem-not-allowed = Not allowed
    .why = This form came from another site, so nothing was changed. Open the page again and try once more.
problem-too-long = Too long
    .why = That was longer than a bench sheet can be. Nothing was stored.
problem-no-form = Not a form
    .why = This page takes only its own form.
problem-other-form = This page takes only its own form. Nothing was stored.
problem-not-confirmed = Not yet confirmed
    .why = The server took too long. Your entry is not yet confirmed: go back, and press the button again.
problem-not-understood = Not understood
    .why = The server could not understand this request.
problem-inside = Something went wrong
    .why = The server met a problem. It has been written in its log. Please try again.
problem-too-many-tries = Too many tries

## The practicals

method-ripple-tank = Ripples on water
method-string-loops = Loops on a string
caution-flashing = Flashing light can make some people very ill. Tell your teacher before any lamp flashes if it might harm you: you can count slow waves under steady light.
caution-water = Keep plugs, leads and this computer dry. Wipe up spilt water at once.
caution-eyes = Wear eye protection: a stretched string can snap.
caution-feet = Keep your feet clear of the hanging mass. Add no more mass than your teacher allows.

## The bench sheet

sheet = Bench { $label }: your sheet
sheet-lead = { $practical }, class { $class }, { $date }
sheet-yours = Your sheet
sheet-go = Go to your sheet
sheet-marked = Your sheet has been marked.
sheet-read-feedback = Read your feedback
sheet-may-change = You can still change it until your teacher closes the class set.
sheet-handed-in = Handed in { $when }. Kept.
sheet-saved = Saved { $when }. Not handed in yet.
sheet-saved-after = Saved { $when }. These changes are not handed in yet.
sheet-save = Save
sheet-save-hint = Type each figure as you wrote it down: 5.60 and 5.6 are not the same. Save as often as you like.
sheet-save-only = Save without handing in
sheet-hand-in = Hand in
sheet-look-again = Look again at our working
sheet-save-look-again = Save and look again at our working
sheet-cautions-first = What your teacher and the room’s own rules say comes first.
sheet-part-enlargement = 1 The enlargement
    .lead = The lamp makes a picture that is larger than the water. Find out how many times larger.
sheet-part-string = 1 Your string
    .lead = Leave these boxes empty if your teacher did not ask for them.
sheet-part-readings = 2 Your readings
    .lead-crests = One row for each frequency. Measure over as many crests as you can. Leave rows empty if you do not need them.
    .lead-loops = One row for each frequency. Measure over as many loops as you can. Leave rows empty if you do not need them.
sheet-part-working = 3 Your working
    .lead = Work these out for each row. Choose the unit of each column.
sheet-part-result = 4 Your result
sheet-part-words = 5 In your own words
    .lead = Leave these boxes empty if your teacher did not ask for them. Please do not write anybody’s name.
sheet-kit = What is written on your kit
    .short = Kit
    .long = Type only what is written on the kit: at most 40 characters.
sheet-shared = If these are not your own readings, where are they from?
    .hint = Leave it empty if you took them yourselves. Or write, for instance: group D, or the set on the board.
    .short = Where the readings are from
    .line = Readings from
    .long = Type only the group or set they come from: at most 40 characters.
sheet-row = Row
    .of = Row { $row }: { $what }
sheet-readings-table = Table of readings
sheet-working-table = Table of working
sheet-left-out = We left this row out as an anomaly
    .of = Row { $row }: we left this row out as an anomaly
    .line = Row { $row }: left out as an anomaly
    .yes = yes
sheet-repeat = Repeat
    .button = Measure again
    .of = Measure again: the frequency of row { $row }
    .ready = Row { $ready } is ready: the same frequency as row { $row }. It is not saved yet.
sheet-add-rows = Add two rows
    .added = Two rows were added. Nothing is saved yet.
    .full = There is no room for another row on this sheet.
sheet-counted = No dial? Count the crests that pass a point
    .lead = Call the first number as the watch starts, and the last as it stops.
    .table = Counted crests
sheet-in-unit = in { $unit }
    .column = { $heading } in { $unit }
sheet-unit = unit
    .of = Unit of { $heading }
    .of-column = Unit of the column { $heading }
sheet-choose = choose
sheet-asked = Kept, but is it right? { $question }
sheet-complaints = { $count ->
    [one] Nothing is saved yet: put this box right, then press Save
   *[other] Nothing is saved yet: put these { $count } boxes right, then press Save
 }
sheet-complaints-empty = Nothing to keep yet
sheet-complaint = { $name }. { $reason }
sheet-empty = Nothing is filled in yet. Type your readings first.
sheet-too-old = This page was too old to be kept. Look your figures over and press the button again.
sheet-words-long = This is { $length } characters long. Make it shorter: there is room for { $most }.
sheet-words-hidden = There is a sign in it that cannot be shown. Type this part again, without pasting it.
sheet-closed = Your teacher has closed this class set. You can read your sheet, but not change it.
sheet-nothing = Nothing was stored on this sheet.
sheet-stored = What is stored, as you typed it

typed-box = Box
typed-you = You typed

answer-method = How did you measure?
    .hint = Say what you did, in order, so that another group could do it again without asking you.
    .short = How you measured
answer-conclusion = What did you find?
    .hint = Say what your results show. Use two of your own numbers.
    .short = What you found
answer-evaluation = What was good, and what was not?
    .hint = Which reading was hard to take? Would it come out too large or too small? What would make it more precise?
    .short = What was good and what was not

two-versions = Two versions
two-versions-heading = Bench { $label }: two versions
two-versions-lead = Since you opened this page, another version was stored. Nothing was written over: choose which one to keep.
two-versions-table = The two versions
two-versions-differ = Boxes in which the two differ
two-versions-stored = Stored { $when }
two-versions-yours = Yours, not kept yet
two-versions-empty = (empty)
two-versions-same = Boxes that are the same in both
    .caption = The same in both versions
    .both = Both say
two-versions-choose = If you keep the stored one, yours is let go: copy down first what you need from it. If you put yours in its place, the stored one stays in the history of the sheet, where your teacher can see it.
two-versions-keep = Keep the stored one
two-versions-replace = Put mine in its place

not-kept = Not kept
not-kept-heading = Bench { $label }: not kept
not-kept-typed = What you typed. Copy it down if you need it.
not-kept-closed = Your teacher has closed this class set, so this was not kept. What you stored before is safe.
    .next = See what is stored
not-kept-number = This was not kept, because this browser must give the come-back number first.
    .next = Type the come-back number

## Looking again

again = Bench { $label }: look again
again-one = One thing at a time. Talk it over in your group.
again-at = Look again at { $what }.
again-go-unit = Go to the unit
again-go-row = Go to row { $row }
again-go-box = Go to this box
again-go-working = Go to your working
again-more = If you change anything, save it and look again. There may be another thing after this one. If you think that your figure is right, ask your teacher.
again-not-begun = Nothing is stored on your sheet yet. Save it first, then look again.
again-no-working = There is no working on your sheet yet.
    .next = Type what you worked out, save it, and look again.
again-nothing = Nothing in your working needs another look.
    .readings = This page looks only at what you worked out from your readings. The readings themselves are for you to check.
again-off = Your teacher has not switched this on.

## Feedback

feedback = Your feedback
feedback-title = Bench { $label }: your feedback
feedback-not-yet = Bench { $label }: feedback
    .why = There is no feedback to read yet. Your teacher will tell you when there is.
feedback-none = There is no slip for this bench.
feedback-of = Feedback for bench { $label }
feedback-head = Bench { $label }: { $marks } of { $most } marks
feedback-table = Readings and working of bench { $label }
feedback-left-out = { $row } (left out)
feedback-right = right
feedback-here = ← here
feedback-more-rows = { $count ->
    [one] And { $count } more row on your sheet.
   *[other] And { $count } more rows on your sheet.
 }
feedback-nothing-typed = Nothing was typed on the screen.
feedback-first = The first wrong turn: { $place }
feedback-sum = { $arithmetic }; you have { $given }.
    .row = Row { $row }: { $arithmetic }; you have { $given }.
feedback-found = Your teacher found a slip in your readings:
    .ask = { $found }. Ask what it was.
feedback-notes = From your teacher
feedback-note-about = { $about }:
feedback-marks = Your marks
feedback-mark = { $marks } of { $most }
feedback-not-marked = not marked yet
feedback-total = Together: { $marks } of { $most } marks.
    .own = These are your department’s own marks for this practical.
feedback-next = One thing to do next

## The boxes of a sheet
# The name stands in sentences, after *the* or *your*; .box is what the box or its
# column is called, .hint the line under it, .usual what helps where a figure is
# unusual.

field-scale-image = length of the object on the screen
    .box = Length of its picture on the screen
    .hint = Measure the picture of the same object, where you measure the waves.
    .usual = Does that fit on the screen?
field-scale-true = true length of the object
    .box = True length of the object
    .hint = Measure the object itself, not its picture.
    .usual = Does that fit in the tank?
field-depth-mm = depth of the water
    .box = Depth of the water
    .hint = Only if you measured it.
    .usual = Most tanks hold 4 to 12 mm of water.
field-temperature-c = temperature of the water
    .box = Temperature of the water
    .hint = Only if you measured it.
    .usual = Tap water in a lab is near 15 to 25 °C.
field-hanging-mass-g = mass hung on the string
    .box = Mass on the string, with its hanger
    .usual = Is that in grams, hanger included?
field-string-mass-g = mass of the string
    .box = Mass of the string
    .usual = Is that in grams?
field-string-length-m = length of the string that was weighed
    .box = Length of the string that you weighed
    .usual = Is that in metres?
field-dial = dial
    .box = Dial reading
field-dial-times = dial multiplier
    .box = Dial is set to
field-passes-first = first number called
    .box = First number you called
field-passes-last = last number called
    .box = Last number you called
field-seconds = time of the count
    .box = Time from first call to last
    .usual = Is that in seconds?
field-first-crest = number at the ruler’s zero
    .box = Number of the crest at the ruler’s zero
field-last-crest = number at the far end
    .box = Number of the crest at the far end
field-span = distance between the crests
    .box = Distance between these two crests
    .usual = Does that fit on the screen?
field-loops = loops seen
    .box = Loops you see
field-length = length measured
    .box = Length you measured
    .usual = Does that fit on the bench?
field-length-loops = loops in that length
    .box = Loops in that length
field-frequency = frequency
    .box = Frequency
field-wavelength = wavelength
    .box = Wavelength
field-reciprocal = 1 ÷ wavelength
    .box = 1 ÷ wavelength
field-speed = speed
    .box = Speed
field-magnification = enlargement
    .box = Enlargement: picture ÷ object
    .hint = No unit. Leave it empty if you measured in the water itself.
field-mean-speed = mean speed
    .box = Mean of your speeds
    .hint = Leave out rows that you ticked as anomalies.
field-uncertainty = uncertainty of the mean
    .box = Uncertainty of your mean
    .hint = How far your mean may be out, either way. Half the range: (largest speed − smallest speed) ÷ 2.
field-gradient = gradient
    .box = Gradient of your graph
    .hint = Frequency goes up the page, 1 ÷ wavelength goes along it.

## Drawings

ruler = Counting crests from the ruler’s zero
    .drawn = A wave above a ruler. The crest at the ruler’s zero is called 0. The next crests are called 1, 2, 3 and 4. The crest called 4 is at the far end, so there are four wavelengths between the two.
    .caption = Put the ruler’s zero under a crest. Call that crest 0, the next one 1, and count on to the far end.
    .end = 20 cm
loops = Three loops on a string
    .drawn = A string fixed at both ends shakes in three loops. The four still points between and beside the loops are marked N, for node. A line under the first two loops says: two loops are one wavelength.
    .loop = loop { $number }
    .node = N
    .wave = one wavelength
    .what = A loop is the part between two still points (nodes, N).
    .two = Two loops are one wavelength.

## The hand-out

hand-out-go = Go to
hand-out-code = and type the lesson code
hand-out-qr = QR code that leads to { $address }/c/{ $code }
